import type { Field } from '../fields/field.ts';
import { choiceField, lengthField } from '../fields/fields.ts';
import type { Contact } from '../geometry/reach.ts';
import type { Setting } from '../units/setting.ts';
import { writeGiven } from '../units/writing.ts';
import { say } from '../words/say.ts';

/** Which line of the wall is drawn. */
export const contactField = (usual: Contact): Field<Contact> =>
  choiceField(
    'line drawn: first touch anywhere through the wall, the outside surface’s, or the bore’s',
    ['wall', 'od', 'id'],
    { default: usual },
  );

/** The same where what is usual depends on the joint; `usual` says on what. */
export const usualContactField = (usual: string): Field<Contact | undefined> =>
  choiceField(
    `line drawn: first touch anywhere through the wall, the outside surface’s, or the bore’s; left out, ${usual}`,
    ['wall', 'od', 'id'],
    { optional: true },
  );

/** The root gap. */
export const gapField = lengthField('root gap of the finished joint', {
  default: '0mm',
  example: '3mm',
  max: 50,
});

/** The contact rule in words. */
export const describeContact = (contact: Contact): string => {
  switch (contact) {
    case 'wall':
      return say`Touches first anywhere through the wall: cut square to the surface, it seats without grinding`;
    case 'od':
      return say`Line of the outside surface`;
    case 'id':
      return say`Line of the bore, drawn on the outside`;
  }
};

/** The root gap in words. */
export const describeGap = (gap: number, setting: Setting): string =>
  gap > 0 ? say`root gap ${writeGiven(gap, setting)}` : say`no root gap`;

/** The root gap of a joint both of whose ends are cut by these sheets. */
export const describeHalfGap = (gap: number, setting: Setting): string =>
  gap > 0 ? say`${describeGap(gap, setting)} in the finished joint, half off each piece` : say`no root gap`;
