import type { Picture } from '../drawing/model.ts';
import { scenePictures } from '../drawing/scene-picture.ts';
import type { FlatStretch } from '../geometry/developable.ts';
import { itemAt, lastOf } from '../lists.ts';
import { add3, length3, sub3, unit3, vec3, type Vec3 } from '../geometry/vector.ts';
import type { Part, Scene, SurfaceLine } from '../scene/scene.ts';
import type { ShellRule } from '../scene/shape.ts';
import type { Sight } from '../scene/sight.ts';

/** Seen from in front of station 300, from a little above. */
const SIGHT: Sight = {
  right: vec3(Math.cos(0.5), Math.sin(0.5), 0),
  up: vec3(-Math.sin(0.5) * Math.sin(0.45), Math.cos(0.5) * Math.sin(0.45), Math.cos(0.45)),
};

/** Rules a whole turn of a curved stretch is shown by. */
const STEPS = 240;

/** A sheet of its stretches once round, and where it is cut open. */
export interface Shell {
  readonly id: string;
  readonly name: string;
  readonly parts: readonly (readonly FlatStretch[])[];
  readonly thickness: number;
  /** Where it lies; as it is where left out. */
  readonly place?: (p: Vec3) => Vec3;
}

/** Thickness of sheet whose thickness is not given, as a part of its size: a mesh has two sides. */
export const THIN = 0.004;

const rulesOf = ({ parts, place = (p) => p }: Shell): readonly ShellRule[] => {
  const origin = place(vec3(0, 0, 0));
  const turn = (v: Vec3): Vec3 => sub3(place(v), origin);
  const flats = parts.flat();
  const rows = flats.flatMap((flat) => {
    const steps = flat.kind === 'flat' ? 1 : Math.ceil(STEPS / Math.min(4, flats.length));
    return Array.from({ length: steps + 1 }, (_, i) => {
      const { foot, head } = flat.space(i / steps);
      const normal = turn(flat.normal(i / steps));
      return { foot: place(foot), head: place(head), normal };
    });
  });
  const rules: ShellRule[] = [];
  for (const { foot, head, normal } of rows) {
    const last = rules[rules.length - 1];
    const same = last && length3(sub3(foot, last.foot)) + length3(sub3(head, last.head)) < 1e-6;
    if (same) rules[rules.length - 1] = { ...last, after: normal };
    else rules.push({ foot, head, before: normal, after: normal });
  }
  // The last rule is the first one again.
  const [first, last] = [itemAt(rules, 0), lastOf(rules)];
  return [{ ...first, before: last.before }, ...rules.slice(1, -1)];
};

const seamLines = ({ parts, place = (p) => p, thickness }: Shell): readonly SurfaceLine[] => {
  const origin = place(vec3(0, 0, 0));
  return parts.map((part): SurfaceLine => {
    const flat = itemAt(part, 0);
    const { foot, head } = flat.space(0);
    const normal = unit3(sub3(place(flat.normal(0)), origin));
    const out = (p: Vec3): Vec3 =>
      add3(
        place(p),
        vec3((normal.x * thickness) / 2, (normal.y * thickness) / 2, (normal.z * thickness) / 2),
      );
    return { kind: 'seam', points: [out(foot), out(head)], normals: [normal, normal] };
  });
};

/** Sheets in space; the picture shows them from in front, or `square` on the plane of stations 0 and 180. */
export const shellScene = (
  title: string,
  shells: readonly Shell[],
  { square = false, about }: { readonly square?: boolean; readonly about?: string } = {},
): Scene => {
  const parts = shells.map((shell): Part => {
    const rules = rulesOf(shell);
    const first = itemAt(rules, 0);
    const size = length3(sub3(first.head, first.foot));
    const thickness = shell.thickness > 0 ? shell.thickness : THIN * size;
    return {
      id: shell.id,
      name: shell.name,
      role: 'work',
      shape: { kind: 'shell', rules, thickness },
      lines: seamLines({ ...shell, thickness }),
    };
  });
  const sight: Sight = square ? { right: vec3(1, 0, 0), up: vec3(0, Math.sin(0.3), Math.cos(0.3)) } : SIGHT;
  return {
    parts,
    views: [{ title, sight, width: 54, height: 50, notes: [], ...(about === undefined ? {} : { about }) }],
  };
};

/** The one picture of sheets in space. */
export const shellPicture = (...scene: Parameters<typeof shellScene>): Picture =>
  itemAt(scenePictures(shellScene(...scene)), 0);
