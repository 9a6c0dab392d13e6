interface TrustedTypesFactory {
  createPolicy(name: 'default', rules: { createScriptURL(address: string): string }): unknown;
}

/**
 * Where the browser holds scripts to trusted types, lets the app's own workers and the MQTT client's timers be started
 * by their address, and nothing else: no markup and no code made of text, from whatever file or message it came.
 */
export function trustOwnScripts(): void {
  (globalThis as { readonly trustedTypes?: TrustedTypesFactory }).trustedTypes?.createPolicy('default', {
    createScriptURL(address) {
      const { origin, protocol } = new URL(address, location.href);
      if (origin === location.origin || protocol === 'blob:') return address;
      throw new TypeError(`${address} is no script of this app`);
    },
  });
}
