// Writes the published JSON Schemas into public/ from the schemas of the code: node --import tsx .ci/write-schemas.ts
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { publishedSchemas } from './published-schemas.ts';

for (const [name, text] of publishedSchemas()) writeFileSync(fileURLToPath(new URL(`../public/${name}`, import.meta.url)), text);
