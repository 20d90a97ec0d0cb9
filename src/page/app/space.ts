import {
  AmbientLight,
  Box3,
  BufferAttribute,
  BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  EdgesGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Matrix4,
  Mesh,
  MeshLambertMaterial,
  OrthographicCamera,
  Scene,
  Vector3,
  WebGLRenderer,
} from 'three';
import type { BodyView, JointView, WrapView } from '../core/views.ts';

/** How a joint is looked at. */
export interface Look {
  /** Turned about the upright axis, and raised above it, radians. */
  readonly turn: number;
  readonly raise: number;
  readonly zoom: number;
  /** 0 together, 1 taken apart. */
  readonly apart: number;
  /** Ids of bodies, and names of templates, that are not shown. */
  readonly hidden: ReadonlySet<string>;
}

/** A joint drawn on a canvas. */
export interface Space {
  readonly show: (joint: JointView) => void;
  readonly draw: (look: Look) => void;
  readonly close: () => void;
}

/** Colors of the page, read where the canvas stands, so that they follow day and night. */
const readInk = (canvas: HTMLElement) => {
  const style = getComputedStyle(canvas);
  const color = (name: string): Color => new Color(style.getPropertyValue(name).trim());
  return { paper: color('--paper'), ink: color('--ink'), accent: color('--accent'), tint: color('--tint') };
};
type Ink = ReturnType<typeof readInk>;

/** Sharp edges are those whose faces turn by more than this, degrees. */
const sharp = 28;

const geometryOf = ({ positions, normals, indices }: BodyView): BufferGeometry => {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(normals, 3));
  geometry.setIndex(new BufferAttribute(indices, 1));
  return geometry;
};

const mixed = (a: Color, b: Color, share: number): Color => a.clone().lerp(b, share);

/** Steel in shades of the page, what it must fit a little darker; edges in ink. */
const makeBody = (body: BodyView, ink: Ink): Group => {
  const group = new Group();
  const geometry = geometryOf(body);
  const isNext = body.role === 'next';
  const material = new MeshLambertMaterial({
    color: mixed(ink.paper, ink.ink, body.role === 'work' ? 0.12 : 0.34),
    side: DoubleSide,
    transparent: isNext,
    opacity: isNext ? 0.25 : 1,
    depthWrite: !isNext,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
  });
  const edges = new LineSegments(
    new EdgesGeometry(geometry, sharp),
    new LineBasicMaterial({ color: ink.ink }),
  );
  group.add(new Mesh(geometry, material), edges);
  return group;
};

const colorOf = (role: string, ink: Ink): Color =>
  role === 'cut' ? ink.accent : mixed(ink.paper, ink.ink, 0.8);

const makeWrap = ({ paper, lines }: WrapView, ink: Ink): Group => {
  const group = new Group();
  const sheet = new BufferGeometry();
  sheet.setAttribute('position', new BufferAttribute(paper, 3));
  sheet.computeVertexNormals();
  const white = new MeshLambertMaterial({
    color: mixed(ink.paper, ink.accent, 0.06),
    side: DoubleSide,
    transparent: true,
    opacity: 0.88,
  });
  group.add(new Mesh(sheet, white));
  for (const { role, points } of lines) {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(points, 3));
    group.add(new LineSegments(geometry, new LineBasicMaterial({ color: colorOf(role, ink) })));
  }
  return group;
};

/** Frees what the graphics memory holds for everything in a group. */
const dispose = (group: Group): void => {
  group.traverse((one) => {
    if (!(one instanceof Mesh || one instanceof LineSegments)) return;
    (one.geometry as BufferGeometry).dispose();
    (one.material as MeshLambertMaterial).dispose();
  });
  group.clear();
};

/** Puts a joint's parts and the templates wrapped on them into a group; each knows which way it moves when taken apart. */
const fillBodies = (bodies: Group, joint: JointView, ink: Ink): void => {
  for (const body of joint.bodies) {
    const group = makeBody(body, ink);
    group.userData = { away: body.away, key: body.id };
    bodies.add(group);
  }
  for (const wrap of joint.wraps) {
    const group = makeWrap(wrap, ink);
    const away = joint.bodies.find(({ id }) => id === wrap.body)?.away ?? [0, 0, 0];
    group.userData = { away, key: wrap.name };
    bodies.add(group);
  }
};

/** A drawing of joints on `canvas`. Throws where the browser has no WebGL. */
export const openSpace = (canvas: HTMLCanvasElement): Space => {
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  const scene = new Scene();
  const camera = new OrthographicCamera();
  const bodies = new Group();
  const sun = new DirectionalLight(0xffffff, 2.2);
  scene.add(bodies, new AmbientLight(0xffffff, 1.4), sun);
  const centre = new Vector3();
  let radius = 1;
  let shown: JointView | undefined;
  let size = '';

  /** Takes the canvas's size where it has changed: setting it makes the browser take new memory for the picture. */
  const fit = (width: number, height: number): void => {
    const ratio = Math.min(2, devicePixelRatio);
    const next = `${width} ${height} ${ratio}`;
    if (next === size) return;
    size = next;
    renderer.setPixelRatio(ratio);
    renderer.setSize(width, height, false);
  };

  const move = (look: Look): void => {
    for (const group of bodies.children) {
      const { away, key } = group.userData as { away: readonly [number, number, number]; key: string };
      group.position.set(...away).multiplyScalar(look.apart * radius * 0.8);
      group.visible = !look.hidden.has(key);
    }
  };

  return {
    show: (joint) => {
      shown = joint;
      dispose(bodies);
      fillBodies(bodies, joint, readInk(canvas));
      const [right, up] = [new Vector3(...joint.right), new Vector3(...joint.up)];
      bodies.setRotationFromMatrix(new Matrix4().makeBasis(right, up, right.clone().cross(up)).transpose());
      bodies.updateMatrixWorld(true);
      const box = new Box3().setFromObject(bodies);
      box.getCenter(centre);
      radius = Math.max(1, box.getSize(new Vector3()).length() / 2);
    },
    draw: (look) => {
      if (shown === undefined) return;
      const { clientWidth: width, clientHeight: height } = canvas;
      if (width === 0 || height === 0) return;
      fit(width, height);
      move(look);
      const half = (radius * (1 + 0.6 * look.apart)) / look.zoom;
      const shape = width / height;
      const [x, y] = shape > 1 ? [half * shape, half] : [half, half / shape];
      Object.assign(camera, { left: -x, right: x, top: y, bottom: -y, near: 0, far: radius * 12 });
      const level = Math.cos(look.raise);
      camera.position
        .set(level * Math.sin(look.turn), Math.sin(look.raise), level * Math.cos(look.turn))
        .multiplyScalar(radius * 6)
        .add(centre);
      camera.lookAt(centre);
      camera.updateProjectionMatrix();
      // Light comes over the left shoulder of whoever looks.
      sun.position
        .set(-0.6, 0.9, 1)
        .applyQuaternion(camera.quaternion)
        .multiplyScalar(radius * 6);
      renderer.render(scene, camera);
    },
    close: () => {
      dispose(bodies);
      renderer.dispose();
    },
  };
};
