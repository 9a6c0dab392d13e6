/** Path of a Chromium that runs: CHROMIUM_PATH first, then the PATH's folders; null for none. */
export declare function findChromium(): string | null;
