/**
 * What our packages ask for and never use here: reading fonts in other packings than ours, pictures, HTML. It would be a sixth
 * of the program.
 */
export const unusedPackages: ReadonlySet<string> = new Set(['brotli/decompress.js', 'sax', 'image-size']);
