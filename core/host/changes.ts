/**
 * Changes as they come from the window. In: data that may be anything; out: whether it has the shape of a change. What a
 * change says in detail (steps, sections, metadata, editions) is checked where it is applied.
 */
import * as v from 'valibot';
import type { Change, SectionAttributes } from '#book';

const id = v.pipe(v.string(), v.minLength(1), v.maxLength(200));
const place = v.pipe(v.number(), v.integer(), v.minValue(0));

/** A book's text nests less than this; deeper data would run a later recursion out of stack. */
const DEEPEST_JSON = 200;
const DEEPEST_GROUP = 8;
/** The base64 of a picture of 190 MB. */
const LONGEST_PICTURE = 256 * 2 ** 20;

const json = v.custom((value) => isJson(value, 0), 'not plain data');

function isJson(value: unknown, depth: number): boolean {
  if (value === null || typeof value === 'string' || typeof value === 'boolean') return true;
  if (typeof value === 'number') return Number.isFinite(value);
  if (typeof value !== 'object' || depth > DEEPEST_JSON) return false;
  if (Array.isArray(value)) return value.every((each) => isJson(each, depth + 1));
  const prototype: unknown = Object.getPrototypeOf(value);
  if (prototype !== Object.prototype && prototype !== null) return false;
  return Object.values(value).every((each) => isJson(each, depth + 1));
}

/** Data by name; its members are checked where the change is applied. */
const record = v.custom(
  (value) => typeof value === 'object' && value !== null && !Array.isArray(value) && isJson(value, 0),
);

/** The attributes of a section, and no other. */
const attributes = v.strictObject({
  kind: v.optional(v.string()),
  editions: v.optional(v.nullable(v.array(id))),
  heading: v.optional(v.nullable(v.string())),
  numbered: v.optional(v.boolean()),
  label: v.optional(v.nullable(v.string())),
  startNumber: v.optional(v.nullable(v.number())),
  restart: v.optional(v.boolean()),
} satisfies Record<keyof SectionAttributes, v.GenericSchema>);

const asset = v.strictObject({
  id: v.pipe(v.string(), v.regex(/^[0-9a-f]{64}$/)),
  mediaType: v.pipe(v.string(), v.maxLength(100)),
  name: v.pipe(v.string(), v.maxLength(1_000)),
  pixels: v.nullable(v.strictObject({ width: v.number(), height: v.number() })),
  base64: v.pipe(v.string(), v.maxLength(LONGEST_PICTURE)),
});

/** What each kind of change carries beside its kind. A group is looked into. */
const CARRIES: Readonly<Record<Exclude<Change['kind'], 'group'>, v.ObjectEntries>> = {
  editText: { section: id, steps: v.array(json) },
  addSection: { index: place, section: json },
  dropSection: { section: id },
  moveSection: { section: id, index: place },
  setSection: { section: id, set: attributes },
  splitSection: { section: id, block: id, added: id, set: attributes },
  joinSections: { section: id },
  setMetadata: { set: record },
  putEdition: { edition: record, index: place },
  dropEdition: { edition: id },
  putDesign: { design: id, settings: json, index: place },
  dropDesign: { design: id },
  putAsset: { asset },
  dropAsset: { asset: id },
  putMuted: { muted: record, index: place },
  dropMuted: { muted: id },
  putRemark: { remark: record, index: place },
  dropRemark: { remark: id },
};

const SCHEMAS: ReadonlyMap<string, v.GenericSchema> = new Map(
  Object.entries(CARRIES).map(([kind, entries]) => [kind, v.strictObject({ kind: v.literal(kind), ...entries })]),
);

const group = v.strictObject({ kind: v.literal('group'), changes: v.array(v.unknown()) });

/** Whether data has the shape of a change. */
export function isChange(value: unknown, depth = 0): value is Change {
  if (v.is(group, value)) return depth < DEEPEST_GROUP && value.changes.every((each) => isChange(each, depth + 1));
  const kind = typeof value === 'object' && value !== null ? (value as { readonly kind?: unknown }).kind : undefined;
  const schema = typeof kind === 'string' ? SCHEMAS.get(kind) : undefined;
  return schema !== undefined && v.is(schema, value);
}
