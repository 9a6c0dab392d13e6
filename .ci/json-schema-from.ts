import type * as v from 'valibot';
import { fieldMetadata, schemaShape } from '../src/core/text/walk-schema.ts';

type Json = Readonly<Record<string, unknown>>;

/** The JSON Schema (draft 2020-12) of a schema made by `field-schemas.ts`: what it takes, for readers that are not ours. */
export function jsonSchemaFrom(schema: v.GenericSchema): Json {
  const shape = schemaShape(schema);
  const told = fieldMetadata(schema);
  const about: Json = told === null || told.about === '' ? {} : { description: told.about };
  switch (shape.kind) {
    case 'wrapped': {
      const inner = jsonSchemaFrom(shape.inner);
      if (shape.mayBeNull) return orNull(inner);
      return ['number', 'string', 'boolean'].includes(typeof shape.fallback) ? { ...inner, default: shape.fallback } : inner;
    }
    case 'list':
      return { ...about, ...told?.json, items: jsonSchemaFrom(shape.item) };
    case 'variant':
      return { ...about, oneOf: shape.options.map(jsonSchemaFrom) };
    case 'group': {
      const required = Object.entries(shape.entries)
        .filter(([, entry]) => !mayBeMissing(entry))
        .map(([key]) => key);
      const properties = Object.fromEntries(Object.entries(shape.entries).map(([key, entry]) => [key, jsonSchemaFrom(entry)]));
      return { ...about, type: 'object', required, properties };
    }
    case 'value':
      return told === null ? { const: shape.literal } : { ...about, ...told.json };
  }
}

function mayBeMissing(schema: v.GenericSchema): boolean {
  const shape = schemaShape(schema);
  return shape.kind === 'wrapped' && (shape.mayBeMissing || mayBeMissing(shape.inner));
}

function orNull(inner: Json): Json {
  if (Array.isArray(inner['enum'])) return { ...inner, enum: [...inner['enum'], null] };
  return { ...inner, type: [inner['type'], 'null'] };
}
