import { fc } from '../../property.ts';
import * as v from 'valibot';
import { fieldMetadata, schemaShape } from '../../../src/core/text/walk-schema.ts';

/** Fillings for texts that no pattern of a plain kind describes, by the field's last name. */
export type TextFillings = Readonly<Record<string, fc.Arbitrary<unknown>>>;

/** Anything that a schema made by `field-schemas.ts` takes and gives back unchanged; rules across fields are the caller's. */
export function anyOf(schema: v.GenericSchema, texts: TextFillings, key = ''): fc.Arbitrary<unknown> {
  const shape = schemaShape(schema);
  switch (shape.kind) {
    case 'wrapped':
      return shape.mayBeNull ? fc.option(anyOf(shape.inner, texts, key)) : anyOf(shape.inner, texts, key);
    case 'variant':
      return fc.oneof(...shape.options.map((option) => anyOf(option, texts, key)));
    case 'group':
      return fc.record(Object.fromEntries(Object.entries(shape.entries).map(([name, entry]) => [name, anyOf(entry, texts, name)])), { noNullPrototype: true });
    case 'list': {
      const { minItems = 0, maxItems = Infinity } = (fieldMetadata(schema)?.json ?? {}) as { readonly minItems?: number; readonly maxItems?: number };
      return fc.array(anyOf(shape.item, texts, key), { minLength: minItems, maxLength: Math.min(maxItems, minItems + 4) });
    }
    case 'value':
      return shape.literal === undefined ? anyValue(schema, texts, key) : fc.constant(shape.literal);
  }
}

function anyValue(schema: v.GenericSchema, texts: TextFillings, key: string): fc.Arbitrary<unknown> {
  const json = fieldMetadata(schema)?.json ?? {};
  const [least, greatest] = [json['minimum'], json['maximum']] as readonly (number | undefined)[];
  const filling = texts[key];
  const drawn =
    filling ??
    (Array.isArray(json['enum'])
      ? fc.constantFrom(...(json['enum'] as readonly unknown[]))
      : json['type'] === 'boolean'
        ? fc.boolean()
        : json['type'] === 'integer'
          ? fc.integer({ min: least!, max: greatest! })
          : json['type'] === 'number'
            ? fc.double({ min: least!, max: greatest!, noNaN: true })
            : typeof json['pattern'] === 'string' && json['pattern'].startsWith('^')
              ? fc.stringMatching(new RegExp(json['pattern'], 'u'))
              : fc.string({ unit: 'grapheme', maxLength: 80 }));
  // What the schema itself makes of it, where it takes it at all.
  const kept = drawn.map((value) => v.safeParse(schema, value)).filter(({ success }) => success);
  return kept.map(({ output }) => output).filter((value) => Object.is(v.parse(schema, value), value));
}
