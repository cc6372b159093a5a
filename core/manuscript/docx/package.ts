/**
 * The package (ECMA-376 part 2): parts and how they relate. In: a zip container; out: the main part and, from any part,
 * the parts it points to by relationship. Targets are names inside the package only; no path outside is followed.
 */

import { strFromU8 } from 'fflate';
import { Unreadable } from './limits.ts';
import { explainContainer } from './sniff.ts';
import { readXml, type Scope } from './xml.ts';
import type { Zip } from './zip.ts';

export interface Relationship {
  /** The last word of the relationship's type: `footnotes`, `image`, `hyperlink`. */
  readonly type: string;
  /** A part name, or an address if `external`. */
  readonly target: string;
  readonly external: boolean;
}

export type Relationships = ReadonlyMap<string, Relationship>;

export class OfficePackage {
  constructor(
    private readonly zip: Zip,
    readonly file: string,
  ) {}

  /** The name of the part that holds the text. */
  mainPart(): string {
    const main = this.targetsOf('', 'officeDocument').find((name) => this.zip.has(name));
    if (main) return main;
    if (this.zip.has('word/document.xml')) return 'word/document.xml';
    const mimetype = this.zip.read('mimetype');
    throw new Unreadable(
      explainContainer(this.zip.names(), mimetype && strFromU8(mimetype.subarray(0, 128)), this.file),
    );
  }

  /** The bytes of a part, or null where there is none. */
  part(name: string): Uint8Array | null {
    return this.zip.read(name);
  }

  /** Runs a part through a scope; false if there is no such part. */
  readPart(name: string, root: Scope): boolean {
    const bytes = this.part(name);
    if (!bytes) return false;
    readXml({ file: this.file, part: name, bytes }, root);
    return true;
  }

  /** The relationships of a part by id; those of the package itself for ''. */
  relationshipsOf(part: string): Relationships {
    const slash = part.lastIndexOf('/') + 1;
    const scope = new RelationshipScope(part.slice(0, slash));
    this.readPart(`${part.slice(0, slash)}_rels/${part.slice(slash)}.rels`, scope);
    return scope.found;
  }

  /** The parts of one type that a part points to. */
  targetsOf(part: string, type: string): readonly string[] {
    const all = [...this.relationshipsOf(part).values()];
    return all.filter((each) => each.type === type && !each.external).map((each) => each.target);
  }
}

class RelationshipScope implements Scope {
  readonly found = new Map<string, Relationship>();

  constructor(private readonly folder: string) {}

  open(name: string, tag: { get(name: string): string | undefined }): Scope | null {
    if (name !== 'rel:Relationship') return this;
    const id = tag.get('Id');
    const target = tag.get('Target');
    if (id === undefined || target === undefined) return null;
    const type = tag.get('Type') ?? '';
    const external = tag.get('TargetMode') === 'External';
    this.found.set(id, {
      type: type.slice(type.lastIndexOf('/') + 1),
      target: external ? target : partName(this.folder, target),
      external,
    });
    return null;
  }
}

/** A relative target as a part name. */
function partName(folder: string, target: string): string {
  const path = target.startsWith('/') ? target : `${folder}${target}`;
  const kept: string[] = [];
  for (const step of path.replaceAll('\\', '/').split('/')) {
    if (step === '..') kept.pop();
    else if (step !== '' && step !== '.') kept.push(step);
  }
  return kept.join('/');
}
