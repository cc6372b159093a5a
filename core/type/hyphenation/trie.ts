/**
 * Liang's pattern matching over a flat trie. In: a tree of pattern letters with levels, and a word as letter numbers; out:
 * the level at each place of the word. F. M. Liang, "Word Hy-phen-a-tion by Com-put-er", STAN-CS-83-977 (1983).
 */

/** A tree node: the levels of the pattern that ends here, its continuations, or both. */
export type PatternNode = number | PatternBranch | readonly [PatternBranch, number];
export interface PatternBranch {
  readonly [letter: string]: PatternNode;
}

export interface PatternTrie {
  /** Number of each letter, from 1, by UTF-16 unit. The full stop stands for a word's ends. */
  readonly letters: ReadonlyMap<number, number>;
  /** Nodes below this one have continuations, the others none. The root is 0. */
  readonly branches: number;
  /** Node reached from another by a letter, 0 for none: `next[node * width + letter]`. */
  readonly next: Uint32Array;
  readonly width: number;
  /** Where a node's levels begin in `levels`, -1 for none; their number comes first. */
  readonly values: Int32Array;
  readonly levels: Uint8Array;
}

/** Lays a pattern tree out in arrays. */
export function buildTrie(levelTable: readonly (readonly number[])[], tree: PatternBranch): PatternTrie {
  const starts: number[] = [];
  const levels: number[] = [];
  for (const entry of levelTable) {
    starts.push(levels.length);
    levels.push(entry.length, ...entry);
  }
  return new TrieBuilder(starts, tree).finish(Uint8Array.from(levels));
}

class TrieBuilder {
  private readonly letters = new Map<number, number>();
  private nodes = 0;
  private branches = 0;
  private branch = 0;
  private leaf: number;
  private readonly width: number;
  private readonly values: Int32Array;
  private readonly next: Uint32Array;

  constructor(
    private readonly starts: readonly number[],
    tree: PatternBranch,
  ) {
    this.survey(tree);
    this.width = this.letters.size + 1;
    this.values = new Int32Array(this.nodes).fill(-1);
    this.next = new Uint32Array(this.branches * this.width);
    this.leaf = this.branches;
    this.lay(tree);
  }

  finish(levels: Uint8Array): PatternTrie {
    const { letters, branches, next, width, values } = this;
    return { letters, branches, next, width, values, levels };
  }

  /** Counts nodes and branches and numbers the letters. */
  private survey(node: PatternNode): void {
    this.nodes++;
    const branch = branchOf(node);
    if (!branch) return;
    this.branches++;
    for (const letter in branch) {
      const unit = letter.charCodeAt(0);
      if (!this.letters.has(unit)) this.letters.set(unit, this.letters.size + 1);
      this.survey(branch[letter]!);
    }
  }

  private lay(node: PatternNode): number {
    const branch = branchOf(node);
    const id = branch ? this.branch++ : this.leaf++;
    const level = typeof node === 'number' ? node : Array.isArray(node) ? (node[1] as number) : -1;
    if (level >= 0) this.values[id] = this.starts[level]!;
    if (!branch) return id;
    for (const letter in branch) {
      this.next[id * this.width + this.letters.get(letter.charCodeAt(0))!] = this.lay(branch[letter]!);
    }
    return id;
  }
}

function branchOf(node: PatternNode): PatternBranch | null {
  if (typeof node === 'number') return null;
  return Array.isArray(node) ? (node[0] as PatternBranch) : (node as PatternBranch);
}

/**
 * Raises `found` to the highest level that any pattern gives each place. `word` holds the letters' numbers between two
 * full stops, `length` of them in all; `found[i]` is the level before letter i.
 */
export function matchPatterns(trie: PatternTrie, word: Uint16Array, length: number, found: Uint8Array): void {
  const { branches, next, width, values, levels } = trie;
  for (let start = 0; start < length; start++) {
    // The levels of a pattern that begins with a full stop leave that stop out.
    const base = start === 0 ? 1 : start;
    let node = 0;
    for (let i = start; i < length && node < branches; i++) {
      node = next[node * width + word[i]!]!;
      if (node === 0) break;
      const value = values[node]!;
      if (value < 0) continue;
      const count = levels[value]!;
      for (let k = 0; k < count; k++) {
        const level = levels[value + 1 + k]!;
        if (level > found[base + k]!) found[base + k] = level;
      }
    }
  }
}
