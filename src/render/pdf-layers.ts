import { type Role, roles } from '../drawing/model.ts';
import type { PageContent } from './pdf-content.ts';
import { type PdfDocument, type PdfReference, textString } from './pdf-document.ts';

/** The document's layers (optional content groups), one for each role that is drawn. */
export interface Layers {
  /** What is drawn from here on belongs to the role's layer; nothing is open at the start of a page. */
  open(role: Role): void;
  /** Ends the open layer; must be called before the page is left. */
  close(): void;
  /** Lists the layers in the document, in the order of `roles`. */
  finish(): void;
}

export const createLayers = (doc: PdfDocument, content: PageContent): Layers => {
  const groups = new Map<Role, PdfReference>();
  let current: Role | undefined;

  const groupOf = (role: Role): PdfReference => {
    const known = groups.get(role);
    if (known) return known;
    const group = doc.ref({ Type: 'OCG', Name: textString(role) });
    group.end();
    groups.set(role, group);
    return group;
  };

  const close = (): void => {
    if (current !== undefined) content.operator('EMC');
    current = undefined;
  };

  return {
    close,
    open(role) {
      if (role === current) return;
      close();
      const resources = doc.page.resources.data;
      resources['Properties'] = { ...(resources['Properties'] as object | undefined), [role]: groupOf(role) };
      content.operator(`/OC /${role} BDC`);
      current = role;
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
