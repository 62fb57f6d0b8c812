/** Misfire pattern by firing order, with the engine drawn from above. */
import { useState } from 'preact/hooks';
import { type CylinderGeometry, companionPairs, usualFiringOrders } from '../../engine/belief/cylinders.ts';
import type { ScopeFacts } from '../../engine/knowledge.ts';
import {
  type Bore,
  boreRadius,
  boresFromAbove,
  firingIntervalDegrees,
  geometryOf,
  type Layout,
  misfireCode,
  readFiringOrder,
  type Shared,
  scopeFits,
  sharedBy,
} from '../calc/misfire.ts';
import { Boxes, Links, type Named, Result, Shares, TakeIntoJob, Waiting } from './parts.tsx';

export interface MisfireData {
  readonly scopes: readonly ScopeFacts[];
  /** By id of the scope: what it is, and the causes of a misfire that mostly reach that far. */
  readonly about: Readonly<Record<string, { readonly what: string; readonly causes: readonly Named[] }>>;
}

const layoutWords = { inline: 'in line', v: 'V', flat: 'flat' };
const keyOf = (layout: string, order: readonly number[]) => `${layout} ${order.join('-')}`;
const own = 'own';

export function Misfire({ data }: { readonly data: MisfireData }) {
  const [choice, choose] = useState(keyOf('inline', [1, 3, 4, 2]));
  const [typed, type] = useState('1-3-4-2');
  const [layout, setLayout] = useState<Layout>('inline');
  const [misfiring, setMisfiring] = useState<readonly number[]>([1, 4]);
  const [several, setSeveral] = useState(false);
  const usual = usualFiringOrders.find((entry) => keyOf(entry.layout, entry.order) === choice);
  const order = usual ? usual.order : readFiringOrder(typed);
  const shape = usual ? usual.layout : layout;
  const geometry = order ? geometryOf(order, shape, usual?.bank1) : null;
  const named = geometry ? misfiring.filter((cylinder) => cylinder <= geometry.cylinders) : [];
  const toggle = (cylinder: number) =>
    setMisfiring(named.includes(cylinder) ? named.filter((one) => one !== cylinder) : [...named, cylinder].sort((a, b) => a - b));
  return (
    <>
      <div class="bench-form">
        <div class="entry">
          <label class="entry-main">
            <span>Engine and firing order</span>
            <select value={choice} onChange={(event) => choose(event.currentTarget.value)}>
              {usualFiringOrders.map((entry) => (
                <option
                  key={keyOf(entry.layout, entry.order)}
                  value={keyOf(entry.layout, entry.order)}
                  selected={keyOf(entry.layout, entry.order) === choice}
                >
                  {entry.order.length} {layoutWords[entry.layout]}: {entry.order.join('-')}
                </option>
              ))}
              <option value={own}>another: type it</option>
            </select>
          </label>
          <p class="entry-hint">The label under the bonnet or the service information names it.</p>
        </div>
        {!usual && (
          <>
            <div class="entry">
              <label class="entry-main">
                <span>Firing order</span>
                <input
                  type="text"
                  inputMode="numeric"
                  autocomplete="off"
                  value={typed}
                  aria-invalid={order === null}
                  onInput={(event) => type(event.currentTarget.value)}
                />
              </label>
              {order === null && <p class="entry-fault">Name each cylinder once, such as 1-3-4-2.</p>}
            </div>
            <div class="entry">
              <label class="entry-main">
                <span>Layout</span>
                <select value={layout} onChange={(event) => setLayout(event.currentTarget.value as Layout)}>
                  {(['inline', 'v', 'flat'] as const).map((one) => (
                    <option key={one} value={one} selected={one === layout}>
                      {layoutWords[one]}
                    </option>
                  ))}
                </select>
              </label>
              {layout !== 'inline' && <p class="entry-hint">Odd numbers are taken as one bank, even ones as the other.</p>}
            </div>
          </>
        )}
        {geometry && (
          <fieldset class="bench-group">
            <legend>Cylinders that misfire</legend>
            <div class="cylinders">
              {geometry.firingOrder
                .map((_, index) => index + 1)
                .map((cylinder) => (
                  <button key={cylinder} type="button" aria-pressed={named.includes(cylinder)} onClick={() => toggle(cylinder)}>
                    {cylinder}
                  </button>
                ))}
            </div>
            <label class="bench-tick">
              <input type="checkbox" checked={several} onChange={(event) => setSeveral(event.currentTarget.checked)} />
              The code for several cylinders (P0300) is stored too
            </label>
          </fieldset>
        )}
      </div>
      {geometry && (
        <Result>
          <Engine geometry={geometry} misfiring={named} />
          <Pattern geometry={geometry} misfiring={named} several={several} layout={shape} data={data} />
        </Result>
      )}
    </>
  );
}

/** Room above the bores for the arcs that join companions. */
const arcRoom = 34;

function Engine({ geometry, misfiring }: { readonly geometry: CylinderGeometry; readonly misfiring: readonly number[] }) {
  const bores = boresFromAbove(geometry);
  const width = Math.max(...bores.map(({ x }) => x)) + boreRadius + 4;
  const height = Math.max(...bores.map(({ y }) => y)) + boreRadius + 4;
  const arc = (one: number, other: number) => {
    const [a, b] = [one, other].map((cylinder) => bores.find((bore) => bore.cylinder === cylinder)!) as [Bore, Bore];
    if (a.y !== b.y) return `M${a.x} ${a.y}L${b.x} ${b.y}`;
    return `M${a.x} ${a.y - boreRadius}C${a.x} ${a.y - boreRadius - arcRoom} ${b.x} ${b.y - boreRadius - arcRoom} ${b.x} ${b.y - boreRadius}`;
  };
  const lit = companionPairs(geometry.firingOrder).filter(([a, b]) => misfiring.includes(a) && misfiring.includes(b));
  const said = misfiring.length === 0 ? 'none marked' : `misfiring ${misfiring.join(', ')}`;
  return (
    <figure class="engine">
      <svg
        viewBox={`-34 ${-arcRoom} ${width + 34} ${height + arcRoom}`}
        width={width + 34}
        height={height + arcRoom}
        role="img"
        aria-label={`Engine from above, front on the left; ${said}`}
      >
        <path class="engine-front" d={`M-14 ${height / 2 - 9}L-26 ${height / 2}L-14 ${height / 2 + 9}`} />
        {lit.map(([a, b]) => (
          <path key={`${a}-${b}`} class="engine-pair" d={arc(a, b)} />
        ))}
        {bores.map(({ cylinder, x, y }) => (
          <g key={cylinder} class={misfiring.includes(cylinder) ? 'bore bore-out' : 'bore'}>
            <circle cx={x} cy={y} r={boreRadius} />
            {misfiring.includes(cylinder) && (
              <path class="bore-cross" d={`M${x - 17} ${y - 17}L${x + 17} ${y + 17}M${x + 17} ${y - 17}L${x - 17} ${y + 17}`} />
            )}
            <text x={x} y={y + 7}>
              {cylinder}
            </text>
          </g>
        ))}
      </svg>
      <figcaption class="quiet">
        From above, front of the engine at the arrow. A cross marks a cylinder that misfires
        {lit.length > 0 ? ', a line joins companions' : ''}.
      </figcaption>
    </figure>
  );
}

const pairText = (pairs: readonly (readonly [number, number])[]) => pairs.map(([a, b]) => `${a} and ${b}`).join('; ');

function verdict(misfiring: readonly number[], shared: Shared, geometry: CylinderGeometry): string {
  if (misfiring.length === 0) return 'No cylinder marked.';
  if (misfiring.length === 1)
    return `One cylinder: ${misfiring[0]}. What belongs to it alone comes first: plug, coil, injector, compression.`;
  if (misfiring.length === geometry.cylinders) return 'Every cylinder: look at what all share.';
  const said: string[] = [];
  if (shared.patterns.includes('companion-pair')) said.push('a companion pair: on a paired-coil engine they share one coil');
  if (shared.patterns.includes('neighbours'))
    said.push('neighbours in the block: the head gasket between them, or a loom that bends there');
  if (shared.wholeBank !== null) said.push(`the whole of bank ${shared.wholeBank + 1}: what serves that bank alone`);
  if (said.length > 0) return `${misfiring.join(' and ')} are ${said.join(', and ')}.`;
  return shared.insideBank !== null
    ? `Several, all on bank ${shared.insideBank + 1}.`
    : 'Several without one thing in common. A worn set or something that all share fits better than one part.';
}

function Pattern(props: {
  readonly geometry: CylinderGeometry;
  readonly misfiring: readonly number[];
  readonly several: boolean;
  readonly layout: Layout;
  readonly data: MisfireData;
}) {
  const { geometry, misfiring, several, layout, data } = props;
  const shared = sharedBy(misfiring, geometry);
  const fits = scopeFits(misfiring, several, geometry, data.scopes);
  const pairs = companionPairs(geometry.firingOrder);
  const about = fits[0] && data.about[fits[0].scope.id];
  const codes = [...(several ? ['P0300'] : []), ...misfiring.map(misfireCode)];
  return (
    <>
      <p class="result-line">{verdict(misfiring, shared, geometry)}</p>
      <Boxes
        items={[
          ['Companions, 360° apart', pairs.length > 0 ? pairText(pairs) : 'none: an odd number of cylinders'],
          ['Degrees between power strokes', `${firingIntervalDegrees(geometry.cylinders)}°, if it fires evenly`],
          ...geometry.banks.map(
            (bank, index) => [geometry.banks.length > 1 ? `Bank ${index + 1}, front to back` : 'Front to back', bank.join(', ')] as const,
          ),
        ]}
      />
      {fits.length === 0 ? (
        <Waiting>Mark the cylinders that the codes or the misfire counters name.</Waiting>
      ) : (
        <>
          <Shares
            caption="How far the fault reaches, each reach taken as equally likely before"
            rows={fits.map(({ scope, share }) => ({ id: scope.id, title: scope.title, share }))}
          />
          {about && <p>{about.what}</p>}
          {about && about.causes.length > 0 && (
            <details>
              <summary>Causes of a misfire that mostly reach this far</summary>
              <Links items={about.causes} />
            </details>
          )}
          <TakeIntoJob
            situation={{
              codes,
              engine: {
                cylinders: geometry.cylinders,
                firingOrder: geometry.firingOrder,
                bank1: geometry.banks.length > 1 ? geometry.banks[0]! : [],
                layout,
              },
            }}
            what={codes.join(', ')}
          />
        </>
      )}
    </>
  );
}
