import { describe, expect, it } from 'vitest';
import { identify } from '../../src/identity.ts';
import { UserError } from '../../src/issue.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { makeBook, makeSheets, makeWrittenSheets } from '../../src/print.ts';
import { proveFile } from '../../src/proof/prove.ts';
import { remakePrint } from '../../src/jobs/remake.ts';
import { renderPdf } from '../../src/render/pdf.ts';
import { readRequest, type Texts } from '../../src/request.ts';
import { textWidth } from '../../src/drawing/lettering.ts';
import type { Sheet } from '../../src/drawing/model.ts';
import { readExample } from '../../src/page/core/example.ts';
import { inLanguage } from '../../src/words/languages.ts';
import { captionOf, nameOf } from '../../src/words/captions.ts';
import { translateSheet } from '../../src/words/say.ts';
import { readCommand } from '../support/commands.ts';
import { readTexts } from '../support/pdf-texts.ts';

/** Words that no Spanish sentence has. Designations and choices are typed in English in any language. */
const english =
  /(?:^|[\s(])(?:the|and|with|from|of|to|is|are|it|its|this|that|by|at|for|each|both|cut|wrap|check|mark|line|side|before|until|inside|outside|gap|toward)(?=[\s.,;:)]|$)/i;
/** Kinds of stock, bodies and joints as they are typed. */
const typed =
  /"[^"]*"|\b(?:set-(?:on|in)|cone OD \S+ to \S+ over \S+|pipe|elbow|reducer|head|valve|flange|tee|cap)\b[^;:,.)]*/gi;

const wordsOf = ({
  heading,
  subject,
  steps,
  cautions,
  facts,
  tables,
  pictures,
}: Sheet): readonly string[] => [
  heading,
  ...subject,
  ...steps,
  ...cautions,
  ...facts.map(([label]) => label),
  ...tables.flatMap(({ title, header }) => [title, ...header]),
  ...pictures.map(({ title }) => title),
];

const linesOf = (sheets: readonly Sheet[]) =>
  sheets.map(({ name, marks }) => ({
    name,
    lines: marks.filter(({ kind, role }) => kind === 'stroke' && ['cut', 'bend', 'punch'].includes(role)),
  }));

const examples = layouts.map(({ id, examples: [line = id] }) => {
  const layout = layouts.find((one) => one.id === id);
  return [id, layout === undefined ? {} : readExample(layout, line)] as const;
});

describe('a sheet in Spanish', () => {
  it.each(examples)('%s is the same piece, in other words', (id, texts: Texts) => {
    const plain = readRequest(id, texts);
    const spanish = readRequest(id, { ...texts, language: 'es' });
    const [inEnglish, inSpanish] = [makeSheets(plain), makeSheets(spanish)];
    expect(linesOf(inSpanish)).toEqual(linesOf(inEnglish));
    expect(identify(spanish.understood, inSpanish)).toBe(identify(plain.understood, inEnglish));
    const left = inSpanish.flatMap(wordsOf).filter((text) => english.test(text.replace(typed, '')));
    expect(left).toEqual([]);
  });

  it.each([
    ['branch', { branch: 'NPS 3 sch 40', header: 'NPS 6 sch 40', angle: '60' }],
    ['bolt-circle', { flange: 'NPS 6 class 150' }],
  ])('%s proves, and is drawn again in its language', async (id, texts: Texts) => {
    for (const language of ['es', 'en+es']) {
      const book = makeBook(readRequest(id, { ...texts, language }));
      const bytes = await renderPdf(book);
      for (const told of ['en', 'es'] as const)
        expect(inLanguage(told, () => proveFile(bytes)).findings.filter(({ ok }) => !ok)).toEqual([]);
      const again = await remakePrint(JSON.parse(JSON.stringify(book.spec)), (spec) => spec);
      expect(Buffer.from(again.bytes).equals(Buffer.from(bytes))).toBe(true);
    }
  });

  it('says the work in both languages side by side', async () => {
    const request = readRequest('miter', { stock: 'NPS 6 sch 40', cut: '22.5', language: 'en+es' });
    const [sheet] = makeSheets(request);
    expect(sheet?.also?.steps).toHaveLength(sheet?.steps.length ?? 0);
    const texts = (await readTexts(await renderPdf(makeBook(request)))).join(' ');
    for (const title of ['Do the work', 'Haga el trabajo', 'Take care', 'Cuidado'])
      expect(texts).toContain(title);
  });

  it('tells what is wrong in Spanish, under the same codes', () => {
    const told = (language: string): UserError => {
      try {
        makeSheets(readRequest('branch', { branch: 'NPS 8 sch 40', header: 'NPS 4 sch 40', language }));
      } catch (error) {
        if (error instanceof UserError) return error;
      }
      throw new Error('a branch larger than its header was taken');
    };
    const [inEnglish, inSpanish] = [told('en'), told('es')];
    expect(inSpanish.issues.map(({ code, path }) => [code, path])).toEqual(
      inEnglish.issues.map(({ code, path }) => [code, path]),
    );
    expect(inSpanish.message).toMatch(/el ramal, de .* es más grande que el cabezal/);
    expect(inSpanish.issues[0]?.hint).toMatch(/^elija un ramal de/);
    expect(() => readRequest('miter', { stock: 'NPS 6 sch 40', language: 'es' })).toThrow(
      /^falta: ángulo del corte/,
    );
  });

  it('has one word for one thing on a sheet', () => {
    const textsOf = (id: string, texts: Texts): string =>
      JSON.stringify(makeWrittenSheets(readRequest(id, { ...texts, language: 'es' })));
    const offset = textsOf(
      'rolling-offset',
      readCommand('rolling-offset --stock "DN 100 sch 40" --set 400mm --roll 300mm --run 600mm').texts,
    );
    expect(offset).toContain('Rodado, al lado');
    expect(offset).toContain('Avance, adelante');
    expect(offset).not.toMatch(/"(?:Rotación|Línea)"/);
    const tube = textsOf('miter', { stock: 'tube 80x40x4mm', cut: '30' });
    expect(tube).toContain('Revise el material: una cinta');
    const piece = textsOf(
      'piece',
      readCommand(
        'piece --stock "NPS 4 sch 40" --start "miter 22.5" --finish "saddle NPS 6 sch 40" --length 27in',
      ).texts,
    );
    expect(piece).toContain('INICIO: inglete 22.5°');
    expect(piece).toContain('FIN: en ');
    expect(piece).toContain('Extremo de fin: ');
    expect(piece).not.toMatch(/START|FINISH|Extremo de (?:Fin|Inicio)/);
    const wye = textsOf('wye', readCommand('wye --stock "NPS 6 sch 40" --leg 0 --leg 120 --leg 240').texts);
    expect(wye).toContain('Retroceso hasta pierna 2');
    expect(inLanguage('es', () => translateSheet('leg 2'))).toBe('pierna 2');
    expect(wye).not.toMatch(/\b(?:tramo|lado) \d/);
    expect(textsOf('square', { length: '8ft', width: '5ft' })).toContain('"heading":"Escuadra"');
  });

  it.each([
    [
      'compound --for brace --swing 30 --rise 35 --width 50mm --depth 50mm',
      /el lado derecho termina en la punta/,
    ],
    [
      'compound --for brace --swing -30 --rise 35 --width 50mm --depth 50mm',
      /el lado izquierdo termina en la punta/,
    ],
    [
      'radius-gauge --radius 600mm --side outside',
      /demasiado abierta; en los dos extremos: demasiado cerrada/,
    ],
    ['radius-gauge --radius 600mm --side outside', /^Radio exterior$/m],
    ['flight --pipe 60mm --outside 200mm --pitch 200mm --hand left', /^Mano izquierda, haga 1$/m],
    ['arc --radius 900mm --chord 600mm --width 50mm', /de ancho, por dentro del arco$/m],
    ['spacing --length 2400mm --parts 13', /con el largo que leyó/],
    [
      'support --pipe "NPS 8 sch 40" --thickness 10mm --width 8in --height 8in',
      /^Ponga el pie en un borde recto/m,
    ],
    ['trim --pipe "NPS 10 sch 40" --readings 150mm,148mm,149mm,151mm', /sobresale (?:arriba|abajo)$/m],
    ['trim --pipe "NPS 10 sch 40" --readings 150mm,148mm,149mm,151mm', /^0° arriba$/m],
    [
      'transition --from "rect 300x300mm" --to "round 200mm" --height 250mm',
      /^Doble desde las líneas del medio/m,
    ],
  ])('fits its words to what they stand by: %s', (line, expected) => {
    const [id = ''] = line.split(' ');
    const sheets = makeWrittenSheets(readRequest(id, { ...readCommand(line).texts, language: 'es' }));
    const texts = sheets.flatMap(({ subject, steps, facts, pictures }) => [
      ...subject,
      ...steps,
      ...facts.flat(),
      ...pictures.flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []))),
    ]);
    expect(texts.join('\n')).toMatch(expected);
  });

  it('keeps the heads of the tape form within their columns', () => {
    const [form] = makeSheets(readRequest('closing', { pipe: 'NPS 6 sch 40', language: 'es' }));
    const heads = form?.marks.filter((mark) => mark.kind === 'text' && mark.bold).slice(0, 4) ?? [];
    expect(heads).toHaveLength(4);
    const edges = [26, 70, 114, 158];
    heads.forEach((mark, i) => {
      if (mark.kind !== 'text') throw new Error('not a text');
      expect(mark.at.x + textWidth(mark.text, mark.height, true)).toBeLessThan(edges[i] ?? 0);
    });
  });

  it('names templates and inputs by what they mean there, on the page and on the cover of a book', () => {
    const inSpanish = inLanguage('es', () => [
      nameOf('branch'),
      nameOf('run', 'slope'),
      captionOf('run', 'makeup'),
      captionOf('roll', 'rolling-offset'),
      captionOf('flange', 'hopper'),
      captionOf('square'),
    ]);
    expect(inSpanish).toEqual(['ramal', 'avance', 'Línea', 'Rodado', 'Ceja', 'Escuadra']);
    expect(nameOf('top-center')).toBe('top-center');
  });

  it('leaves English as it was before and after', () => {
    const first = makeSheets(readRequest('band', { stock: 'NPS 6 sch 40' }));
    makeSheets(readRequest('band', { stock: 'NPS 6 sch 40', language: 'es' }));
    expect(makeSheets(readRequest('band', { stock: 'NPS 6 sch 40' }))).toEqual(first);
  });
});
