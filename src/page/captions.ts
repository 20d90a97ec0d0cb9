/** An input's or a template's name as a caption: `seam-allowance` is `Seam allowance`. */
export const plainCaption = (name: string): string => {
  const plain = name.replaceAll('-', ' ');
  return plain.charAt(0).toUpperCase() + plain.slice(1);
};
