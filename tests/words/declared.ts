import { commonFields } from '../../src/fields/common.ts';
import { groupInputs, spellInput } from '../../src/fields/describe.ts';
import { families } from '../../src/fields/layout.ts';
import { layouts } from '../../src/layouts/registry.ts';
import { calibrateCommand } from '../../src/cli/calibrate-command.ts';
import type { Command } from '../../src/cli/command.ts';
import { withLanguage } from '../../src/cli/command.ts';
import { jobCommand } from '../../src/cli/job-command.ts';
import { layoutsCommand } from '../../src/cli/layouts-command.ts';
import { layoutCommand } from '../../src/cli/layout-command.ts';
import { pageCommand } from '../../src/cli/page-command.ts';
import { proofCommand } from '../../src/cli/proof-command.ts';
import { reprintCommand } from '../../src/cli/reprint-command.ts';
import { plainCaption } from '../../src/words/captions.ts';

/** Texts that are declared in English and translated where they are shown. */
export const listDeclared = (): ReadonlyMap<string, string> => {
  const found = new Map<string, string>();
  const add = (text: string, where: string): void => {
    if (/\p{L}{2}/u.test(text)) found.set(text, where);
  };
  families.forEach((family) => add(family, 'families'));
  for (const layout of layouts) {
    add(layout.summary, layout.id);
    add(plainCaption(layout.id), layout.id);
    layout.words.forEach((word) => add(word, `${layout.id} words`));
    for (const [key, field] of Object.entries({ ...layout.fields, ...commonFields })) {
      add(field.help, `${layout.id} ${key}`);
      add(plainCaption(spellInput(key)), `${layout.id} ${key}`);
    }
    groupInputs(layout).forEach(({ heading }) => add(heading, 'headings'));
    (layout.sheets ?? []).forEach((name) => add(name.replace(/ N$/, ''), `${layout.id} sheets`));
  }
  // Captions that mean something else on one template.
  [
    'branch --set',
    'breech --legs',
    'bull-plug --rise',
    'center-square --leg',
    'compound --rise',
    'cope --drop',
    'flight --turns',
    'gores --rings',
    'gores --to',
    'hopper --flange',
    'orange-peel --rise',
    'radius-gauge --depth',
    'rolling-offset --roll',
    'rolling-offset --run',
    'slope --run',
    'square --legs',
    'transition --bends',
    'turn --stagger',
    'wye --leg',
  ]
    .filter((caption) =>
      layouts.some(({ id, fields }) =>
        Object.keys(fields).some((key) => caption === `${id} --${spellInput(key)}`),
      ),
    )
    .forEach((caption) => add(caption, 'captions'));
  // Words that are others in one place.
  ['breech: leg', 'wye: leg'].forEach((word) => add(word, 'places'));
  // Sheets whose names are other words alone, or that are called as their templates are.
  [
    'band',
    'bolt circle',
    'bull plug',
    'compound',
    'flight',
    'frame',
    'hole grid',
    'leg',
    'makeup',
    'orange peel',
    'protractor',
    'radius gauge',
    'spacing',
    'square',
    'swage',
  ].forEach((name) => add(`sheet: ${name}`, 'sheets'));
  // What the names of a piece's inside faces begin with.
  ['start end, ', 'finish end, '].forEach((name) => add(name, 'piece'));
  // The page of the words.
  add('notes', 'pages');
  // What a number must be.
  ['a whole number', 'a number', 'less than', 'at most', 'more than', 'at least'].forEach((what) =>
    add(what, 'fields'),
  );
  const addCommand = ({ name, summary, options }: Command, all: boolean): void => {
    add(summary, name);
    if (!all) return;
    for (const { group, help } of options) {
      add(group, `${name} group`);
      add(help, `${name} option`);
    }
  };
  [jobCommand, proofCommand, calibrateCommand, pageCommand, layoutsCommand(layouts)].forEach((command) =>
    addCommand(withLanguage(command), true),
  );
  // What they take from fields is described where it is shown.
  const own = (command: Command): Command => ({
    ...command,
    options: command.options.filter(({ group }) => group === 'Output:'),
  });
  addCommand(own(reprintCommand()), true);
  const [first] = layouts;
  if (first !== undefined) addCommand(own(layoutCommand(first)), true);
  return found;
};
