import './link.css';
import { counted } from '../../core/text/counted.ts';
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import { linkSettingsFault } from '../../app/link/link-settings-fault.ts';
import type { LinkSettings } from '../../app/link/link-settings.ts';
import { linkHosts } from '../../app/link/link-host.ts';
import { draftForOther, draftFrom, type LinkDraft, withLinkEntry } from '../../app/link/offered-link.ts';
import { linkAddresses } from '../../core/wire/link-addresses.ts';
import { useApplication } from '../application-context.ts';
import { formatNumber } from '../../core/text/number-formats.ts';

export interface LinkPanelProps {
  /** From a join code; used when nothing else is set. */
  readonly offeredAddress: string | null;
  /** A ship is linked while it flies, an observer while the screen is open. */
  readonly when: 'now' | 'in-flight';
}

const NOTHING_TYPED: LinkDraft = { settings: { address: '', user: '', password: '', on: false }, typedFor: null, otherHost: null };

/** How this device reaches the link, and how the link stands. Everything else works without it. */
export function LinkPanel({ offeredAddress, when }: LinkPanelProps): VNode {
  const { link } = useApplication();
  const stored = link.settings.value;
  const form = useSignal<LinkDraft>(NOTHING_TYPED);
  const draft = form.value.settings;
  const { otherHost } = form.value;
  const fault = useSignal<string | null>(null);
  useEffect(() => {
    if (!link.settingsRead.value) return;
    form.value = draftFrom(stored, offeredAddress, location);
  }, [stored, link.settingsRead.value, offeredAddress]);
  const change = (part: Partial<LinkSettings>): void => {
    form.value = withLinkEntry(form.value, part, stored);
  };
  const turnOn = (): void => {
    fault.value = linkSettingsFault(draft, location.protocol);
    if (fault.value === null) link.setSettings({ ...draft, on: true });
  };
  const on = stored?.on === true;
  return (
    <section class="ground-link" aria-labelledby="ground-link-title" data-link={on ? (link.room.value?.status.kind ?? 'off') : 'off'}>
      <h2 id="ground-link-title">Link</h2>
      <LinkState when={when} />
      {/* For whoever watches the link: what has come, event by event. */}
      <span
        hidden
        data-heard={JSON.stringify(link.room.value?.heard ?? [])}
        data-event-count={link.room.value?.eventCount ?? 0}
        data-refused={link.room.value?.refusedCount ?? 0}
      />
      {otherHost !== null && offeredAddress !== null && (
        <div class="notice caution" role="status" data-other-host>
          <p>
            This join code names another host: <strong>{otherHost.offered}</strong>. This device is set for <strong>{otherHost.stored}</strong>. Nothing is sent
            to the other before you have typed a name and password for it.
          </p>
          <div class="row">
            <button type="button" onClick={() => (form.value = draftForOther(offeredAddress))}>
              Use {otherHost.offered}
            </button>
            <button type="button" onClick={() => (form.value = { ...form.value, otherHost: null })}>
              Stay with {otherHost.stored}
            </button>
          </div>
        </div>
      )}
      <form
        class="ground-link-form"
        onSubmit={(event) => {
          event.preventDefault();
          turnOn();
        }}
      >
        <label class="field">
          <span>Address, from whoever runs the link</span>
          <input
            inputMode="url"
            autocomplete="off"
            spellcheck={false}
            value={draft.address}
            placeholder="wss://host:8443/link; of a cluster all of them"
            onInput={(event) => change({ address: event.currentTarget.value.trimStart() })}
          />
        </label>
        <label class="field">
          <span>This device’s name there</span>
          <input
            autocomplete="username"
            spellcheck={false}
            autocapitalize="none"
            maxLength={32}
            value={draft.user}
            onInput={(event) => change({ user: event.currentTarget.value.trim() })}
          />
        </label>
        <label class="field">
          <span>Password, kept on this device alone</span>
          <input
            type="password"
            autocomplete="current-password"
            maxLength={200}
            value={draft.password}
            onInput={(event) => change({ password: event.currentTarget.value })}
          />
        </label>
        {fault.value !== null && (
          <p class="fault" role="alert">
            {fault.value}
          </p>
        )}
        <div class="row">
          <button type="submit" class={on ? '' : 'main'}>
            {on ? 'Link again with these' : when === 'now' ? 'Link up' : 'Link this ship'}
          </button>
          {on && stored !== null && (
            <button type="button" onClick={() => link.setSettings({ ...stored, on: false })}>
              Unlink
            </button>
          )}
        </div>
      </form>
    </section>
  );
}

/** The link in a sentence. */
function LinkState({ when }: Pick<LinkPanelProps, 'when'>): VNode {
  const { link } = useApplication();
  const room = link.room.value;
  if (link.settings.value?.on !== true)
    return (
      <p role="status">
        {when === 'now'
          ? 'Not linked. Nothing here needs it; with it the ships’ places and smoke are seen, and calls are sent as words.'
          : 'Not linked. No flight needs it; with it the ground sees this ship and its smoke, and its calls are shown as words.'}
      </p>
    );
  if (room === null) return <p role="status">{when === 'now' ? 'Starting the link.' : 'The link is set, and made when the flight begins.'}</p>;
  const { status, waitingCount, missingCount, observers, storing } = room;
  return (
    <div role="status">
      {status.kind === 'linked' && (
        <p>
          <strong>Linked.</strong> {observers.length === 0 ? '' : `Other observers: ${observers.map(({ name }) => name).join(', ')}.`}
        </p>
      )}
      {status.kind === 'connecting' && <p>Connecting.</p>}
      {status.kind === 'waiting' && (
        <p class="notice caution" data-detail={status.reason.detail}>
          LINK LOST: {endWords(status.reason)} Trying again within {formatNumber(Math.ceil(status.retryInSeconds))} s.
        </p>
      )}
      {status.kind === 'waiting' && status.reason.kind === 'unreachable' && <WhichItIs address={link.settings.value.address} />}
      {status.kind === 'refused' && <p class="notice caution">This name or password is not known there. Correct them; nothing is tried until then.</p>}
      {status.kind === 'no-rights' && <p class="notice caution">This name is known there, but not for this job. Ask whoever runs the link.</p>}
      {status.kind === 'waiting' && (
        <button type="button" onClick={() => link.retry()}>
          Try now
        </button>
      )}
      {waitingCount > 0 && (
        <p class="small">
          {waitingCount} of your messages wait to be sent{storing ? '' : ', and are NOT SAVED'}.
        </p>
      )}
      {missingCount > 0 && (
        <p class="small">
          {counted(missingCount, 'message')} of others {missingCount === 1 ? 'is missing and has' : 'are missing and have'} been asked for.
        </p>
      )}
    </div>
  );
}

/** A page is not told why a secure address fails; a person who opens it is. */
function WhichItIs({ address }: { readonly address: string }): VNode | null {
  if (!address.startsWith('wss://') || linkHosts(address).length === 0) return null;
  const page = `https://${new URL(linkAddresses(address)[0] ?? address).host}/`;
  return (
    <p class="small">
      To see which, open{' '}
      <a href={page} target="_blank" rel="noopener noreferrer">
        {page}
      </a>{' '}
      on this device. A warning means the certificate: install the one of whoever runs the link. Nothing at all means the network or the address.
    </p>
  );
}

function endWords({ kind, detail }: { readonly kind: string; readonly detail: string }): string {
  if (kind === 'broken') return 'it broke, or another device uses the same name.';
  return detail === 'it was reached and gave no answer'
    ? 'the address was reached and gave no answer.'
    : 'no answer that this page is allowed to hear: nobody is at the address, it refuses this page, or its certificate is not trusted by this device.';
}
