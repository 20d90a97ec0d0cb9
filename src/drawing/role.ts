/** Layer names, exact: PDF layers, SVG groups and DXF layers all bear them. */
export const roles = [
  'cut',
  'bend',
  'punch',
  'centre',
  'station',
  'reference',
  'dimension',
  'text',
  'scale',
  'page',
] as const;
export type Role = (typeof roles)[number];
