import { execFileSync } from 'node:child_process';

/** Ids of the processes that run on a profile, the browser's own among them. */
export function processesOf(profile: string): number[] {
  const lines = execFileSync('ps', ['-eo', 'pid=,args='], { encoding: 'utf8' }).split('\n');
  return lines.filter((line) => line.includes(`--user-data-dir=${profile}`)).map((line) => Number.parseInt(line, 10));
}

/** Ids of the profile's processes that run pages; a browser gives them the profile's path like any other. */
export function renderersOf(profile: string): number[] {
  const lines = execFileSync('ps', ['-eo', 'pid=,args='], { encoding: 'utf8' }).split('\n');
  return lines.filter((line) => line.includes('--type=renderer') && line.includes(profile)).map((line) => Number.parseInt(line, 10));
}

/** Ends every process of a profile as a crash would, and waits until they are gone. */
export async function killBrowserOf(profile: string): Promise<void> {
  const victims = processesOf(profile);
  if (victims.length === 0) throw new Error(`no browser runs on ${profile}`);
  for (const pid of victims) signal(pid, 'SIGKILL');
  while (processesOf(profile).length > 0) await new Promise((resolve) => setTimeout(resolve, 20));
}

/** Sends a signal; one that has gone meanwhile is no fault. */
export function signal(pid: number, name: NodeJS.Signals): void {
  try {
    process.kill(pid, name);
  } catch {
    // It went with its parent.
  }
}
