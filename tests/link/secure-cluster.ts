import { execFile, execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import type { NatsCertificate } from '../../src/hub/nats-files.ts';
import type { CampaignFigures, CampaignPlan } from './cluster-campaign.ts';

/** A campaign in which devices and nodes speak TLS alone, by a certificate made as the hub's README says. */
export async function flyOverSecureCluster(plan: Omit<CampaignPlan, 'certificate'>): Promise<CampaignFigures> {
  const folder = mkdtempSync(join(tmpdir(), 'quillwind-authority-'));
  try {
    const certificate = certificateByReadme(folder);
    const { stdout } = await promisify(execFile)(
      process.execPath,
      ['--import', 'tsx', fileURLToPath(new URL('./campaign-process.ts', import.meta.url)), JSON.stringify({ ...plan, certificate })],
      { env: { ...process.env, NODE_EXTRA_CA_CERTS: certificate.authorityPath } },
    );
    return JSON.parse(stdout) as CampaignFigures;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The README's own commands, with this machine's name for the laptop's. */
export function certificateByReadme(folder: string, { purposes = 'serverAuth,clientAuth' } = {}): NatsCertificate {
  const commands = readFileSync(new URL('../../src/hub/README.md', import.meta.url), 'utf8').match(/^openssl .*$/gm) ?? [];
  for (const command of commands) {
    const here = command.replace('DNS:field.local,', '').replace('serverAuth,clientAuth', purposes);
    execFileSync('bash', ['-c', here], { cwd: folder, stdio: 'ignore' });
  }
  const at = (name: string): string => join(folder, name);
  return { certPath: at('cert.pem'), keyPath: at('key.pem'), authorityPath: at('authority.pem') };
}
