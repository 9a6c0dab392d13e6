import type { VNode } from 'preact';

/** Opens the camera, or takes pictures that were made already. */
export function TakePhotograph({ onFiles }: { readonly onFiles: (files: readonly File[]) => void }): VNode {
  const take = (event: Event): void => {
    const input = event.currentTarget as HTMLInputElement;
    const files = [...(input.files ?? [])];
    input.value = '';
    if (files.length > 0) onFiles(files);
  };
  return (
    <div class="row">
      <label class="file-key">
        <span>Photograph</span>
        <input type="file" accept="image/*" capture="environment" aria-label="Take a photograph" onChange={take} />
      </label>
      <label class="file-key">
        <span>Pictures already taken</span>
        <input type="file" accept="image/*" multiple aria-label="Photographs already taken" onChange={take} />
      </label>
    </div>
  );
}
