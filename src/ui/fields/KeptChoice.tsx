import type { VNode } from 'preact';

export interface KeptChoiceProps {
  /** What is kept: `Kept ships`. */
  readonly label: string;
  readonly items: readonly { readonly id: string; readonly name: string }[];
  /** Takes a copy of a kept thing. */
  readonly onTake: (id: string) => void;
  readonly onForget: (id: string) => void;
  /** Keeps what stands here; null while there is nothing worth keeping. */
  readonly onKeep: (() => void) | null;
  readonly keepWord: string;
}

/** Things that are entered once: taken from the list, kept from here, or forgotten. */
export function KeptChoice({ label, items, onTake, onForget, onKeep, keepWord }: KeptChoiceProps): VNode {
  return (
    <div class="row kept-choice">
      {items.length > 0 && (
        <label class="field">
          <span>{label}</span>
          <select
            value=""
            onChange={(event) => {
              const [what = '', id = ''] = event.currentTarget.value.split(':');
              if (what === 'take') onTake(id);
              else if (what === 'forget') onForget(id);
              // Each choice is an act: the list shows nothing chosen.
              event.currentTarget.value = '';
            }}
          >
            <option value="">Take one</option>
            {items.map(({ id, name }) => (
              <option key={id} value={`take:${id}`}>
                {name}
              </option>
            ))}
            <optgroup label="Forget">
              {items.map(({ id, name }) => (
                <option key={id} value={`forget:${id}`}>
                  Forget {name}
                </option>
              ))}
            </optgroup>
          </select>
        </label>
      )}
      <button type="button" class="plain" disabled={onKeep === null} onClick={() => onKeep?.()}>
        {keepWord}
      </button>
    </div>
  );
}
