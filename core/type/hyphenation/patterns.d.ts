/**
 * The pattern files of the package `hyphen`, which carries the patterns of the hyph-utf8 collection in the form of a tree
 * of letters. Their own terms: en-US free copying with notice (Liang's patterns for TeX, as extended by G. Kuiken); en-GB
 * free copying with notice; German, French, Spanish, Italian MIT; Portuguese BSD; Dutch, Danish and others LPPL.
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
