import { readFile } from 'node:fs/promises';
import * as v from 'valibot';
import { isLinkId } from '../core/wire/link-id.ts';

/** Who may connect, and as what. */
export interface HubUser {
  /** Also the client id and the device in every topic it writes. */
  readonly name: string;
  /** `none` may connect and nothing else, for trying a password. */
  readonly role: 'ship' | 'ground' | 'none';
  /** Jobs it may take part in, by id; `*` alone for all. */
  readonly jobs: readonly string[];
  /** See `password-hash.ts`. */
  readonly password: string;
}

export type UsersReading = { readonly ok: true; readonly value: readonly HubUser[] } | { readonly ok: false; readonly reason: string };

const id = v.pipe(v.string(), v.check(isLinkId, 'must match [A-Za-z0-9_-]{1,32}'));

const USERS_SCHEMA = v.object({
  format: v.literal('quillwind-users'),
  version: v.literal(1),
  users: v.pipe(
    v.array(
      v.object({
        name: id,
        role: v.picklist(['ship', 'ground', 'none']),
        jobs: v.pipe(v.array(v.union([v.literal('*'), id])), v.maxLength(1000)),
        password: v.pipe(v.string(), v.regex(/^scrypt\$\d+\$\d+\$\d+\$[\w+/=]+\$[\w+/=]+$/, 'is no hash; make it with the hub\u2019s add-user')),
      }),
    ),
    v.check((users) => new Set(users.map(({ name }) => name)).size === users.length, 'names a user twice'),
  ),
});

/** The users of a users file's text, or what is wrong with it. */
export function usersFromText(text: string): UsersReading {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    return { ok: false, reason: `it is not JSON: ${error instanceof Error ? error.message : String(error)}` };
  }
  const result = v.safeParse(USERS_SCHEMA, value);
  if (result.success) return { ok: true, value: result.output.users };
  const [issue] = result.issues;
  return { ok: false, reason: `${v.getDotPath(issue) ?? 'the file'}: ${issue.message}` };
}

/** The text of a users file; `usersFromText` is its inverse. */
export function textFromUsers(users: readonly HubUser[]): string {
  return `${JSON.stringify({ format: 'quillwind-users', version: 1, users }, null, 2)}\n`;
}

/** The users in a file. Throws an Error that names the file and what is wrong. */
export async function readUsersFile(path: string): Promise<readonly HubUser[]> {
  const reading = usersFromText(await readFile(path, 'utf8'));
  if (!reading.ok) throw new Error(`${path} is not a users file: ${reading.reason}`);
  return reading.value;
}
