import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { isBuiltin } from 'node:module';
import { join, relative, resolve } from 'node:path';
import { gzipSync } from 'node:zlib';
import { build, type Plugin, type Rolldown } from 'vite';
import { unusedPackages } from '../unused-packages.ts';

/** The page and the service worker that keeps it where it is served, as text. */
export interface BuiltPage {
  readonly html: string;
  readonly keeper: string;
}

/** Takes what is of Node, or is never used, to the page's own stand-ins; the catalog of Spanish lies in the script. */
const standIns = (root: string): Plugin => {
  const machine = join(import.meta.dirname, 'machine.js');
  const own = (name: string): string => join(root, 'src/page/core', name);
  const replaced = new Map([
    ['render/font-files.ts', own('fonts.ts')],
    ['render/native.ts', own('native.ts')],
    ['words/catalog-file.ts', '\0catalog'],
  ]);
  return {
    name: 'stand-ins',
    enforce: 'pre',
    resolveId(id, importer) {
      if (unusedPackages.has(id)) return '\0unused';
      if (id !== 'buffer/' && isBuiltin(id)) return machine;
      if (importer === undefined) return undefined;
      return replaced.get(relative(join(root, 'src'), resolve(importer, '..', id)));
    },
    transform: (code, id) =>
      id.includes('/src/proof/') && /\bBuffer\b/.test(code)
        ? `import { Buffer } from ${JSON.stringify(machine)};\n${code}`
        : undefined,
    load(id) {
      if (id === '\0unused') return 'export default {};';
      if (id !== '\0catalog') return undefined;
      const texts: unknown = JSON.parse(readFileSync(join(root, 'shared/words/es.json'), 'utf8'));
      return `export const readCatalogFile = () => ${JSON.stringify(JSON.stringify(texts))};`;
    },
  };
};

/** One script of everything that `entry` needs, and its style sheet. */
const bundle = async (root: string, entry: string): Promise<{ script: string; style: string }> => {
  const built = (await build({
    configFile: false,
    root,
    logLevel: 'error',
    define: { 'import.meta.url': '"file:///"', 'process.env.NODE_ENV': '"production"' },
    oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
    plugins: [standIns(root)],
    build: {
      write: false,
      target: 'es2022',
      minify: true,
      cssMinify: true,
      modulePreload: false,
      lib: { entry: join(root, entry), formats: ['iife'], name: 'soapstone', fileName: 'page' },
      rolldownOptions: { output: { codeSplitting: false } },
    },
  })) as Rolldown.RolldownOutput[];
  const output = built.flatMap((one) => one.output);
  const script = output.find((one) => one.type === 'chunk')?.code ?? '';
  const style = output.find((one) => one.type === 'asset' && one.fileName.endsWith('.css'));
  return { script, style: style?.type === 'asset' ? String(style.source) : '' };
};

/** What the policy knows an inline script or style by. */
const hashOf = (text: string): string => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;

/** Bytes as they lie in the page: packed, in letters. */
const pack = (bytes: string | Uint8Array): string => gzipSync(bytes, { level: 9 }).toString('base64');

const readFont = (root: string, bold: boolean): Uint8Array =>
  readFileSync(join(root, `shared/fonts/lettering${bold ? '-bold' : ''}.ttf`));

/** Builds the page from `root`, the folder of the repository. */
export const buildPage = async (root: string): Promise<BuiltPage> => {
  const core = await bundle(root, 'src/page/core/worker.ts');
  const app = await bundle(root, 'src/page/app/main.tsx');
  const keeper = await bundle(root, 'src/page/keeper.ts');
  // A script ends at the first end tag, wherever it stands.
  const script = app.script.replaceAll('</script', '<\\/script').trim();
  const style = app.style.trim();
  const parts: Readonly<Record<string, string>> = {
    style,
    script,
    core: pack(core.script),
    regular: pack(readFont(root, false)),
    bold: pack(readFont(root, true)),
  };
  const filled = readFileSync(join(root, 'src/page/page.html'), 'utf8').replace(
    /%([a-z]+)%/g,
    (whole, name: string) => parts[name] ?? whole,
  );
  const hashes = (tag: 'script' | 'style'): string => {
    const [, text = ''] = new RegExp(`<${tag}>([^]*?)</${tag}>`).exec(filled) ?? [];
    return hashOf(text);
  };
  const policy = [
    "default-src 'none'",
    `script-src ${hashes('script')}`,
    `style-src ${hashes('style')}`,
    'worker-src blob:',
    'img-src data: blob:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  const html = filled.replace('%policy%', policy);
  return { html, keeper: keeper.script };
};
