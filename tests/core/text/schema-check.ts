import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { XMLParser, XMLValidator } from 'fast-xml-parser';

interface ElementRule {
  readonly attributes?: Readonly<Record<string, string>>;
  readonly required?: readonly string[];
  readonly children?: readonly string[];
  readonly text?: string;
  readonly equalCounts?: readonly string[];
}

interface Rules {
  readonly namespace: string;
  readonly root: string;
  readonly order: 'sequence' | 'all';
  readonly types: Readonly<Record<string, ElementRule>>;
  readonly simple: Readonly<
    Record<string, { readonly pattern: string; readonly minInclusive?: number; readonly maxInclusive?: number; readonly maxExclusive?: number }>
  >;
}

type Node = Readonly<Record<string, unknown>>;

/** The rules of a published schema, restated in tests/reference with their source. */
export function schemaRules(name: 'gpx-1.1' | 'kml-2.3'): Rules {
  return JSON.parse(readFileSync(fileURLToPath(new URL(`../../reference/${name}-rules.json`, import.meta.url)), 'utf8')) as Rules;
}

/**
 * What in a text breaks a schema's rules; none when it is valid. Shares no code with the writers: another parser of
 * XML, and rules that stand in a table beside the tests.
 */
export function schemaBreaches(text: string, rules: Rules): string[] {
  const formed = XMLValidator.validate(text);
  if (formed !== true) return [`not well formed: ${formed.err.msg} at line ${formed.err.line}`];
  const nodes = new XMLParser({ preserveOrder: true, ignoreAttributes: false, attributeNamePrefix: '', parseTagValue: false, trimValues: true }).parse(
    text,
  ) as readonly Node[];
  const roots = nodes.filter((node) => !nameOf(node).startsWith('?'));
  const root = roots[0];
  if (roots.length !== 1 || root === undefined || nameOf(root) !== rules.root) return [`the root is not one ${rules.root}`];
  const breaches: string[] = [];
  if (attributesOf(root)['xmlns'] !== rules.namespace) breaches.push(`the namespace is not ${rules.namespace}`);
  visit(root, rules.root, rules, breaches);
  return breaches;
}

function visit(node: Node, path: string, rules: Rules, breaches: string[]): void {
  const rule = rules.types[nameOf(node)];
  if (rule === undefined) {
    breaches.push(`${path} is no element of the table`);
    return;
  }
  const attributes = attributesOf(node);
  for (const [name, value] of Object.entries(attributes)) {
    if (/^xmlns(:|$)|^xsi:/.test(name)) continue;
    const type = rule.attributes?.[name];
    if (type === undefined) breaches.push(`${path} has no attribute ${name}`);
    else if (!fits(value, type, rules)) breaches.push(`${path} @${name} is not ${type}: ${value}`);
  }
  for (const name of rule.required ?? []) if (!(name in attributes)) breaches.push(`${path} lacks ${name}`);
  const children = (node[nameOf(node)] as readonly Node[]).filter((child) => nameOf(child) !== '#text');
  const text = (node[nameOf(node)] as readonly Node[])
    .filter((child) => nameOf(child) === '#text')
    .map((child) => String(child['#text']))
    .join('');
  if (rule.text === undefined) {
    if (text.trim() !== '') breaches.push(`${path} holds text`);
  } else if (!fits(text, rule.text, rules)) {
    breaches.push(`${path} is not ${rule.text}: ${text}`);
  }
  breaches.push(...orderBreaches(children.map(nameOf), rule.children ?? [], rules.order).map((breach) => `${path}: ${breach}`));
  const counts = (rule.equalCounts ?? []).map((name) => children.filter((child) => nameOf(child) === name).length);
  if (new Set(counts).size > 1) breaches.push(`${path} has ${counts.join(' against ')} of ${rule.equalCounts?.join(' and ')}`);
  for (const child of children) visit(child, `${path}/${nameOf(child)}`, rules, breaches);
}

function orderBreaches(names: readonly string[], allowed: readonly string[], order: 'sequence' | 'all'): string[] {
  const particles = allowed.map((particle) => ({ name: particle.replace(/[?*]$/, ''), many: particle.endsWith('*') }));
  const breaches: string[] = [];
  let last = -1;
  for (const name of names) {
    const at = particles.findIndex((particle) => particle.name === name);
    if (at === -1) breaches.push(`${name} may not stand here`);
    else if (order === 'sequence' && at < last) breaches.push(`${name} comes too late`);
    else if (!particles[at]!.many && names.filter((other) => other === name).length > 1) breaches.push(`${name} stands twice`);
    last = Math.max(last, at);
  }
  return breaches;
}

function fits(value: string, type: string, rules: Rules): boolean {
  if (type.startsWith('=')) return value === type.slice(1);
  const simple = rules.simple[type];
  if (simple === undefined || !new RegExp(`^(?:${simple.pattern})$`).test(value)) return false;
  const number = Number(value);
  return !(number < (simple.minInclusive ?? -Infinity) || number > (simple.maxInclusive ?? Infinity) || number >= (simple.maxExclusive ?? Infinity));
}

function nameOf(node: Node): string {
  return Object.keys(node).find((key) => key !== ':@') ?? '';
}

function attributesOf(node: Node): Readonly<Record<string, string>> {
  return (node[':@'] as Readonly<Record<string, string>> | undefined) ?? {};
}
