import { render, type VNode } from 'preact';
import { useState } from 'preact/hooks';
import './tokens.css';
import './base.css';
import './parts.css';
import '../fields/fields.css';
import { ChoiceField } from '../fields/ChoiceField.tsx';
import { FigureRow } from '../fields/FigureRow.tsx';
import { Fold } from '../fields/Fold.tsx';
import { PEN_NIB, PEN_NIB_SLIT } from '../drawing/pen-nib.ts';

/** One appearance for each frame of the page; both together without one. */
const appearance = new URLSearchParams(location.search).get('appearance');

/** All parts that screens are made of, by day and by night. Shown by `npm run dev` at /ui/style/page.html, and in no build. */
function Page(): VNode {
  if (appearance === null) {
    return (
      <main style="display:grid;grid-template-columns:1fr 1fr;height:100dvh">
        {(['day', 'night'] as const).map((each) => (
          <iframe key={each} title={`By ${each}`} src={`?appearance=${each}`} style="width:100%;height:100%;border:0" />
        ))}
      </main>
    );
  }
  return <Parts />;
}

function Parts(): VNode {
  const [choice, setChoice] = useState<'one' | 'other'>('one');
  return (
    <main class="screen">
      <h1>A title of a screen</h1>
      <h2>A part of it</h2>
      <h3>A piece of that</h3>
      <p>Words are set in the system’s own sans, titles in an old-style serif, numbers in tabular lining figures: 0123456789.</p>
      <p class="quiet small">What is said beside it, small and quiet.</p>
      <div class="row">
        <button type="button" class="main">
          Main
        </button>
        <button type="button">Plain</button>
        <button type="button" class="plain">
          Quiet
        </button>
        <button type="button" disabled>
          Not yet
        </button>
      </div>
      <p class="notice">A notice: something to know.</p>
      <p class="notice refusal">A refusal: what could not be done, and what to do.</p>
      <p class="notice caution">A caution: mind this before you go on.</p>
      <p class="notice warning">A warning: this is wrong now.</p>
      <label class="field">
        <span>A field, ft</span>
        <input value="10,500" />
      </label>
      <label class="field">
        <span>A field with a fault</span>
        <input value="3.500" aria-invalid="true" />
        <span class="fault">Either 3,500 or 3.5: type it so that it means one thing.</span>
      </label>
      <ChoiceField
        label="A choice"
        value={choice}
        choices={[
          { value: 'one', label: 'One' },
          { value: 'other', label: 'The other' },
        ]}
        onChange={setChoice}
      />
      <Fold title="A fold" said="what is set inside" open>
        <dl class="figure-rows">
          <FigureRow label="A figure" note="what it is measured against">
            5:19
          </FigureRow>
        </dl>
      </Fold>
      <table class="figures stacks">
        <thead>
          <tr>
            <th scope="col">Stroke</th>
            <th scope="col">Off the line</th>
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">1 S</th>
            <td data-label="Off the line">38 ft</td>
          </tr>
        </tbody>
      </table>
      <p class="demo-mark">
        <strong>DEMO</strong> invented: not to be flown
      </p>
      <svg viewBox="-16 -12 40 24" width="80" height="48" role="img" aria-label="The mark of a ship">
        <g style="fill:var(--raised);stroke:var(--mark)">
          <path d={PEN_NIB} />
          <path d={PEN_NIB_SLIT} />
        </g>
      </svg>
    </main>
  );
}

if (appearance !== null) document.documentElement.dataset['appearance'] = appearance;
const host = document.getElementById('app');
if (host !== null) render(<Page />, host);
