/**
 * The pattern files of the package `hyphen` (ISC), which carries the patterns of the hyph-utf8 collection as trees of
 * letters. The patterns have terms of their own, all free to use and pass on (from memory of the files' heads): en-US and
 * en-GB copying with the notice kept; German, French, Spanish, Italian MIT; Portuguese BSD; Dutch and others LPPL.
 */
declare module 'hyphen/patterns/*' {
  type Node = number | { readonly [letter: string]: Node } | readonly [{ readonly [letter: string]: Node }, number];
  /** Levels by number, the tree (a number points into the levels), exceptions. */
  const patterns: readonly [
    readonly (readonly number[])[],
    { readonly [letter: string]: Node },
    Readonly<Record<string, readonly number[]>>,
  ];

  // biome-ignore lint/style/noDefaultExport: the file is a CommonJS module, seen as its default export
  export { patterns as default };
}
