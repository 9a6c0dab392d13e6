import { JOB_SCHEMA } from '../src/core/job/job-schema.ts';
import {
  GROUND_EVENT_SCHEMA,
  LINK_ANSWER_SCHEMA,
  LINK_ASK_SCHEMA,
  LINK_PRESENCE_SCHEMA,
  SHIP_EVENT_SCHEMA,
  SHIP_STATE_SCHEMA,
} from '../src/core/wire/link-schemas.ts';
import { OBSERVER_LOG_SCHEMA } from '../src/core/wire/observer-log-schema.ts';
import { jsonSchemaFrom } from './json-schema-from.ts';

const LINK = [SHIP_STATE_SCHEMA, LINK_PRESENCE_SCHEMA, SHIP_EVENT_SCHEMA, GROUND_EVENT_SCHEMA, LINK_ASK_SCHEMA, LINK_ANSWER_SCHEMA];

/** The files of JSON Schema that stand in public/, by name, as the code has them. */
export function publishedSchemas(): ReadonlyMap<string, string> {
  const published = (title: string, schema: object): string =>
    `${JSON.stringify({ $schema: 'https://json-schema.org/draft/2020-12/schema', title, ...schema }, null, 2)}\n`;
  return new Map([
    ['quillwind-job.schema.json', published('Quillwind job', jsonSchemaFrom(JOB_SCHEMA))],
    ['quillwind-link.schema.json', published('Quillwind link message', { anyOf: LINK.map(jsonSchemaFrom) })],
    ['quillwind-observer.schema.json', published('Quillwind observer\u2019s log', jsonSchemaFrom(OBSERVER_LOG_SCHEMA))],
  ]);
}
