import { type Role, roles } from '../drawing/role.ts';
import type { PageContent } from './pdf-content.ts';
import { type PdfDocument, type PdfReference, textString } from './pdf-document.ts';

/** The document's layers (optional content groups), one for each role that is drawn. */
export interface Layers {
  /** What is drawn from here on belongs to the role's layer; nothing is open at the start of a page. */
  readonly open: (role: Role) => void;
  /** Ends the page's drawing: the layers it opened, in the order of their first use. */
  readonly close: () => readonly Role[];
  /** Gives the document's current page the layers that its content names. */
  readonly place: (used: readonly Role[]) => void;
  /** Lists the layers in the document, in the order of `roles`. */
  readonly finish: () => void;
}

export const createLayers = (doc: PdfDocument, content: PageContent): Layers => {
  const groups = new Map<Role, PdfReference>();
  let current: Role | undefined;
  let used = new Set<Role>();

  const groupOf = (role: Role): PdfReference => {
    const known = groups.get(role);
    if (known) return known;
    const group = doc.ref({ Type: 'OCG', Name: textString(role) });
    group.end();
    groups.set(role, group);
    return group;
  };

  const leave = (): void => {
    if (current !== undefined) content.operator('EMC');
    current = undefined;
  };

  return {
    open(role) {
      if (role === current) return;
      leave();
      used.add(role);
      content.operator(`/OC /${role} BDC`);
      current = role;
    },
    close() {
      leave();
      const page = [...used];
      used = new Set();
      return page;
    },
    place(page) {
      if (page.length === 0) return;
      doc.page.resources.data['Properties'] = Object.fromEntries(page.map((role) => [role, groupOf(role)]));
    },
    finish() {
      const listed = roles.flatMap((role) => groups.get(role) ?? []);
      doc._root.data['OCProperties'] = {
        OCGs: listed,
        D: { Name: textString('Soapstone'), Order: listed, ON: listed },
      };
    },
  };
};
