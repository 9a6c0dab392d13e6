import type * as v from 'valibot';
import type { FieldMetadata } from './field-schemas.ts';

/** What a schema is made of, without its checks. */
export type SchemaShape =
  | { readonly kind: 'group'; readonly entries: Readonly<Record<string, v.GenericSchema>> }
  | { readonly kind: 'list'; readonly item: v.GenericSchema }
  | { readonly kind: 'variant'; readonly options: readonly v.GenericSchema[] }
  | { readonly kind: 'wrapped'; readonly inner: v.GenericSchema; readonly mayBeNull: boolean; readonly mayBeMissing: boolean; readonly fallback: unknown }
  | { readonly kind: 'value'; readonly literal: unknown };

/** Looks at a schema made by `field-schemas.ts`. */
export function schemaShape(schema: v.GenericSchema): SchemaShape {
  const looked = schema as v.GenericSchema & Looked;
  const list = looked.pipe?.find((step) => step.type === 'array');
  if (list?.item !== undefined) return { kind: 'list', item: list.item };
  if (looked.wrapped !== undefined) {
    const mayBeMissing = looked.type === 'optional';
    return { kind: 'wrapped', inner: looked.wrapped, mayBeNull: looked.type === 'nullable', mayBeMissing, fallback: mayBeMissing ? looked.default : undefined };
  }
  if (looked.type === 'variant') return { kind: 'variant', options: (looked.options ?? []) as readonly v.GenericSchema[] };
  if (looked.entries !== undefined) return { kind: 'group', entries: looked.entries };
  return { kind: 'value', literal: looked.literal };
}

/** What a field says of itself; null for one that says nothing. The last word counts. */
export function fieldMetadata(schema: v.GenericSchema): FieldMetadata | null {
  const steps = (schema as v.GenericSchema & Looked).pipe ?? [];
  for (const step of steps.toReversed()) {
    if (step.type === 'metadata') return step.metadata as FieldMetadata;
    const inner = step === schema || step.pipe === undefined ? null : fieldMetadata(step as unknown as v.GenericSchema);
    if (inner !== null) return inner;
  }
  return null;
}

/** The schema of a field by its path, `ships.trueAirspeedKnots`: items of lists have no number. RangeError for no such field. */
export function schemaAt(schema: v.GenericSchema, path: string): v.GenericSchema {
  let at = unwrapped(schema);
  for (const key of path.split('.')) {
    const shape = schemaShape(at);
    const next = shape.kind === 'group' ? shape.entries[key] : undefined;
    if (next === undefined) throw new RangeError(`there is no field ${path}`);
    at = unwrapped(next);
  }
  return at;
}

/** A value's known fields in the schema's own order, all the way down: what a writer puts into a file. */
export function inOrder(schema: v.GenericSchema, value: unknown): unknown {
  const shape = schemaShape(schema);
  switch (shape.kind) {
    case 'wrapped':
      return value === null || value === undefined ? (value ?? (shape.mayBeNull ? null : undefined)) : inOrder(shape.inner, value);
    case 'list':
      return Array.isArray(value) ? value.map((item) => inOrder(shape.item, item)) : value;
    case 'group':
      return Object.fromEntries(Object.entries(shape.entries).map(([key, entry]) => [key, inOrder(entry, (value as Record<string, unknown>)[key])]));
    case 'variant': {
      const kind = (value as { readonly kind: unknown }).kind;
      const option = shape.options.find((each) => {
        const inner = schemaShape(each);
        return inner.kind === 'group' && inner.entries['kind'] !== undefined && literalOf(inner.entries['kind']) === kind;
      });
      if (option === undefined) throw new RangeError(`there is no kind ${String(kind)}`);
      return inOrder(option, value);
    }
    case 'value':
      return value;
  }
}

function literalOf(schema: v.GenericSchema): unknown {
  const shape = schemaShape(schema);
  return shape.kind === 'value' ? shape.literal : undefined;
}

/** Without what makes it optional or null, and of a list its item. */
function unwrapped(schema: v.GenericSchema): v.GenericSchema {
  const shape = schemaShape(schema);
  if (shape.kind === 'wrapped') return unwrapped(shape.inner);
  return shape.kind === 'list' ? unwrapped(shape.item) : schema;
}

interface Looked {
  readonly pipe?: readonly { readonly type: string; readonly pipe?: readonly unknown[]; readonly item?: v.GenericSchema; readonly metadata?: unknown }[];
  readonly wrapped?: v.GenericSchema;
  readonly default?: unknown;
  readonly options?: readonly unknown[];
  readonly entries?: Readonly<Record<string, v.GenericSchema>>;
  readonly literal?: unknown;
}
