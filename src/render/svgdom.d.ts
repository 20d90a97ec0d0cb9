/** svgdom ships no types; this is the part we use. */
declare module 'svgdom' {
  export const createSVGWindow: () => Window;
}
