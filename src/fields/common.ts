import { languageChoices } from '../words/languages.ts';
import { choiceField, countField, lengthField, textField } from './fields.ts';

/** How lengths are written, and the paper's thickness: asked by every layout. */
export const settingFields = {
  units: choiceField(
    'units of bare numbers, and those written first; left out, those of the first input that has a unit',
    ['in', 'mm'],
    { optional: true },
  ),
  fraction: choiceField('finest fraction of an inch written', ['16', '32', '64'], { default: '16' }),
  feet: choiceField('twelve inches and more as feet and inches, or as inches', ['on', 'off'], {
    default: 'on',
  }),
  paperThickness: lengthField(
    'thickness of the printed paper (default 0.1mm; 0mm in files for cutters, .svg and .dxf)',
    { example: '0.1mm', max: 3, optional: true },
  ),
} as const;

/** The paper and how sheets are laid on it: asked by every layout. */
export const pagingFields = {
  paper: textField(
    'letter, legal, tabloid, a4, a3, arch-d, 24in-roll, 300x500mm and the like; left out, letter with inches, a4 with mm',
    { example: 'a4', optional: true },
  ),
  orientation: choiceField(
    'which way the paper is held; auto takes the fewest pages',
    ['auto', 'portrait', 'landscape'],
    { default: 'auto' },
  ),
  margin: lengthField('width kept clear at the edges: one for all, or sides,top-and-bottom', {
    default: '6.5mm,13mm',
    example: '6.5mm,13mm',
    max: 100,
    list: 'both',
  }),
  overlap: lengthField('overlap of neighboring pages', { default: '10mm', example: '10mm', max: 100 }),
  sheets: textField('only these sheets, by name or by its first words; left out, all', {
    example: 'gore 1',
    list: true,
    optional: true,
  }),
  equal: choiceField(
    'equal pieces on one sheet that says how many to make, or each on a sheet of its own',
    ['once', 'each'],
    { default: 'once' },
  ),
  notes: choiceField(
    'what has no room beside the drawings on pages of notes: for every sheet, the same words only once, or left out',
    ['all', 'once', 'none'],
    { default: 'all' },
  ),
  notesPaper: textField('paper for pages of notes, where it is another', {
    example: 'letter',
    optional: true,
  }),
  language: choiceField(
    'language of what is printed and told: English, Spanish, or both on one sheet',
    languageChoices,
    { example: 'es', optional: true },
  ),
  printer: textField(
    'printer to correct the print for, by the name it was calibrated under; none for no correction',
    { example: 'shop laser', optional: true },
  ),
  calibration: textField(
    'what that printer makes of 100 %, and when that was measured; left out, its profile on this machine',
    { example: '99.3% across, 100.4% along, 2026-03-14', optional: true },
  ),
} as const;

const titleText = (help: string, example: string) => textField(help, { example, optional: true });

/** The title block's own texts, after ISO 7200: asked by every layout, all optional. */
export const titleFields = {
  piece: titleText("the piece's mark, as it is painted on the steel", 'S12-3'),
  quantity: countField('how many pieces to make', { example: '4', min: 1, max: 9999, optional: true }),
  title: titleText('title; left out, what the sheet is', 'Cooling line'),
  job: titleText('job or project', 'Pump house'),
  order: titleText('order or work number', 'W-1042'),
  number: titleText('drawing number', 'PH-210'),
  revision: titleText('revision', 'B'),
  date: titleText('date of issue', '2026-03-14'),
  supersedes: titleText('revision, or identity of the print, that this one replaces', 'A'),
  supersededBy: titleText('what replaces this print; every page then says not to cut by it', 'rev C'),
  owner: titleText('legal owner of the drawing', 'Shop 3'),
  drawn: titleText('drawn by', 'initials'),
  checked: titleText('checked by', 'initials'),
  approved: titleText('approved by', 'initials'),
} as const;

/** Every layout has these besides its own. */
export const commonFields = { ...settingFields, ...pagingFields, ...titleFields } as const;
