import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from '@playwright/test';

const axeSource = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface AxeWindow {
  readonly axe?: { run(root: string, options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
}

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'wcag2aaa'];

/** What axe finds wrong below `root` by WCAG 2 to 2.2, A to AAA, and by more of its rules where asked: each with its elements. */
export async function accessibilityFindings(page: Page, root = 'html', moreRules: readonly string[] = []): Promise<string[]> {
  if (!(await page.evaluate(() => (window as AxeWindow).axe !== undefined))) await page.evaluate(axeSource);
  const { violations } = await page.evaluate(([where, rules]) => (window as unknown as Required<AxeWindow>).axe.run(where, { runOnly: rules }), [
    root,
    [...RULES, ...moreRules],
  ] as const);
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
}
