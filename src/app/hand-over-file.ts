/** A file the app made, for the person to keep. */
export interface MadeFile {
  readonly name: string;
  /** Media type, as in `application/json`. */
  readonly type: string;
  readonly content: string | Uint8Array<ArrayBuffer> | Blob;
}

/**
 * Gives a file to the person: through the share sheet in an app installed on iOS, where a download would leave the
 * app and might not come back; as a download everywhere else. False when the person turned the sheet away.
 */
export async function handOverFile({ name, type, content }: MadeFile): Promise<boolean> {
  const file = new File([content], name, { type });
  if (isInstalledOnIos() && navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file] });
      return true;
    } catch (error) {
      if (error instanceof DOMException && error.name === 'AbortError') return false;
    }
  }
  const address = URL.createObjectURL(file);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // Some browsers begin to read only after the click has been handled.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
  return true;
}

/** A file name of letters, digits and dashes: `fileNameFrom('Été à l’Ondine', 'json')` is `ete-a-l-ondine.json`. */
export function fileNameFrom(title: string, extension: string): string {
  const plain = title
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 48);
  return `${plain === '' ? 'quillwind' : plain}.${extension}`;
}

/** Only that platform has the property; elsewhere an installed app downloads as a page does. */
function isInstalledOnIos(): boolean {
  return 'standalone' in navigator && navigator.standalone === true;
}
