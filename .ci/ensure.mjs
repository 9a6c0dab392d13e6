// Makes sure that what a command needs is there: `node .ci/ensure.mjs packages browser mosquitto`. Plain Node, no package.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { delimiter, dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { findChromium } from './chromium.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const say = (text) => process.stdout.write(`${text}\n`);

function fail(text) {
  process.stderr.write(`${text}\n`);
  process.exit(1);
}

function run(command, args, env = {}) {
  say(`> ${command} ${args.join(' ')}`);
  return spawnSync(command, args, { cwd: root, stdio: 'inherit', env: { ...process.env, ...env } }).status === 0;
}

function ensureNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) fail(`Node 20.19 or newer is needed; this is ${process.versions.node}.`);
}

/** What stands in node_modules against what the lock file asks for; null when they agree. */
function staleness() {
  const installedPath = join(root, 'node_modules', '.package-lock.json');
  if (!existsSync(installedPath)) return 'the packages are not installed';
  const wanted = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8')).packages;
  const installed = JSON.parse(readFileSync(installedPath, 'utf8')).packages;
  for (const [path, entry] of Object.entries(wanted)) {
    if (path === '') continue;
    const found = installed[path];
    // An optional package of another platform is rightly missing.
    if (!found && (entry.optional || entry.devOptional || entry.peer)) continue;
    if (!found) return `${path} is missing`;
    if (found.version !== entry.version) return `${path} is ${found.version}, wanted is ${entry.version}`;
    if (!existsSync(join(root, path))) return `${path} is missing`;
  }
  return null;
}

function ensurePackages() {
  const reason = staleness();
  if (reason === null) return;
  say(`Installing packages: ${reason}. A minute or two, about 500 packages.`);
  if (!run('npm', ['ci', '--no-audit', '--no-fund', '--progress=true', '--loglevel=notice'])) {
    fail('npm ci did not finish. Its own message stands above; correct that and start again.');
  }
  const left = staleness();
  if (left !== null) fail(`The packages are installed, but ${left}. Delete node_modules and start again.`);
}

/** Installs a Debian package as root; false where that cannot be done. */
function aptInstall(name) {
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return false;
  const quiet = { DEBIAN_FRONTEND: 'noninteractive' };
  const lock = ['-o', 'DPkg::Lock::Timeout=300'];
  return run('apt-get', [...lock, 'update'], quiet) && run('apt-get', [...lock, 'install', '--yes', '--no-install-recommends', name], quiet);
}

function ensureBrowser() {
  if (findChromium() !== null) return;
  const byHand = 'sudo apt-get update && sudo apt-get install --yes chromium';
  const otherwise = `Install Chromium, on Debian with\n\n    ${byHand}\n\nor set CHROMIUM_PATH to a Chromium or Chrome that is already there, then start again.`;
  if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) fail(`The tests need a browser and none was found.\n${otherwise}`);
  say('Installing Chromium with apt, since no browser was found. About a minute.');
  if (!aptInstall('chromium') || findChromium() === null) fail(`Chromium could not be installed.\n${otherwise}`);
}

/** The broker that clusters; its tests are left out, with a word, where it cannot be had. */
function ensureNats() {
  const found = () => [...(process.env.PATH ?? '').split(delimiter), '/usr/sbin', '/usr/local/sbin'].some((folder) => existsSync(join(folder, 'nats-server')));
  if (found()) return;
  say('Installing nats-server with apt, since none was found. About ten seconds.');
  if (!aptInstall('nats-server') || !found()) say('nats-server is missing: the tests of a clustered broker are left out.');
  else if (existsSync('/run/systemd/system')) run('systemctl', ['disable', '--now', 'nats-server']);
}

/** The other broker that the link is tested with; only the tests of the ground ask for it. */
function ensureMosquitto() {
  const found = () => [...(process.env.PATH ?? '').split(delimiter), '/usr/sbin', '/usr/local/sbin'].some((folder) => existsSync(join(folder, 'mosquitto')));
  if (found()) return;
  const otherwise =
    'Install it, on Debian with\n\n    sudo apt-get update && sudo apt-get install --yes mosquitto\n\nthen start again. No service of it needs to run.';
  say('Installing Mosquitto with apt, since no broker was found. About ten seconds.');
  if (!aptInstall('mosquitto') || !found()) fail(`The tests of the link need Mosquitto, and it could not be installed.\n${otherwise}`);
  // Debian starts what it installs; the tests start their own, on ports of their own.
  if (existsSync('/run/systemd/system')) run('systemctl', ['disable', '--now', 'mosquitto']);
}

const parts = { packages: ensurePackages, browser: ensureBrowser, mosquitto: ensureMosquitto, nats: ensureNats };
ensureNode();
for (const name of process.argv.slice(2)) {
  const part = parts[name];
  if (!part) fail(`Unknown: ${name}. Known are ${Object.keys(parts).join(' and ')}.`);
  try {
    part();
  } catch (error) {
    fail(error instanceof Error ? error.message : String(error));
  }
}
