// Writes the tables of promises and faults into tests/faults/README.md: node --import tsx tests/faults/write-tables.ts
import { readFileSync, writeFileSync } from 'node:fs';
import { TABLE_MARKS, tablesText } from './tables-text.ts';

const path = new URL('./README.md', import.meta.url);
const text = readFileSync(path, 'utf8');
const [from, to] = TABLE_MARKS;
const [head = '', rest = ''] = text.split(from);
writeFileSync(path, `${head}${from}\n\n${tablesText()}\n\n${to}${rest.split(to)[1] ?? ''}`);
