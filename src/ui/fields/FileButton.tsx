import type { ComponentChildren, VNode } from 'preact';
import { useRef } from 'preact/hooks';

export interface FileButtonProps {
  /** What the files are, for those who do not see the button. */
  readonly label: string;
  /** Endings and media types, as the `accept` attribute of HTML has them. */
  readonly accept: string;
  readonly multiple?: boolean;
  readonly disabled?: boolean;
  readonly children: ComponentChildren;
  /** At least one file. */
  readonly onFiles: (files: readonly File[]) => void;
}

/** A button that asks for files of the device; the same file may be chosen again after it was changed. */
export function FileButton({ label, accept, multiple = false, disabled = false, children, onFiles }: FileButtonProps): VNode {
  const picker = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" disabled={disabled} onClick={() => picker.current?.click()}>
        {children}
      </button>
      <input
        ref={picker}
        type="file"
        hidden
        multiple={multiple}
        aria-label={label}
        accept={accept}
        onChange={(event) => {
          const files = [...(event.currentTarget.files ?? [])];
          event.currentTarget.value = '';
          if (files.length > 0) onFiles(files);
        }}
      />
    </>
  );
}
