/** The car: cylinders, firing order, and the traits that decide what exists on it. */
import { companionPairs, usualFiringOrders } from '../../../engine/belief/index.ts';
import { useSession } from '../context.ts';
import { TraitsMoved } from '../TraitsMoved.tsx';

const counts = [3, 4, 5, 6, 8] as const;

export function Car() {
  const session = useSession();
  const { traits, cylinders, firingOrder, modelYear } = session.job.value.inputs;
  const orders = usualFiringOrders.filter(
    ({ order, layout }) => order.length === cylinders && (traits['layout'] === undefined || traits['layout'] === layout),
  );
  const chosen = orders.findIndex(({ order }) => order.join() === firingOrder.join());
  const pairs = traits['ignition'] === 'waste-spark' ? companionPairs(firingOrder) : [];
  return (
    <>
      <div class="fields">
        <label class="field">
          <span>How many cylinders?</span>
          <select
            value={cylinders ?? ''}
            onChange={(event) => session.do({ type: 'cylinders', cylinders: Number(event.currentTarget.value) || null })}
          >
            <option value="">Don’t know</option>
            {counts.map((count) => (
              <option key={count} value={count}>
                {count}
              </option>
            ))}
          </select>
        </label>
        {session.data.words.traits.map((trait) => (
          <label class="field" key={trait.id}>
            <span>{trait.asks}</span>
            <select
              value={traits[trait.id] ?? ''}
              onChange={(event) => session.do({ type: 'trait', trait: trait.id, value: event.currentTarget.value || null })}
            >
              <option value="">Don’t know</option>
              {trait.values.map((value) => (
                <option key={value.id} value={value.id}>
                  {value.title}
                </option>
              ))}
            </select>
            <small>{trait.values.find(({ id }) => id === traits[trait.id])?.look ?? ''}</small>
          </label>
        ))}
        {orders.length > 0 && (
          <label class="field">
            <span>Firing order: on a label under the bonnet, or in the service information</span>
            <select
              value={chosen < 0 ? '' : chosen}
              onChange={(event) => {
                const order = orders[Number(event.currentTarget.value)];
                const known = event.currentTarget.value !== '' && order;
                session.do({
                  type: 'firing-order',
                  order: known ? order.order : [],
                  bank1: known && order.layout !== 'inline' ? order.bank1 : [],
                });
              }}
            >
              <option value="">Don’t know</option>
              {orders.map(({ order, layout }, index) => (
                <option key={order.join()} value={index}>
                  {order.join('-')}{' '}
                  {layout === 'inline'
                    ? ''
                    : `(${layout}, bank 1: ${usualFiringOrders.find((usual) => usual.order === order)!.bank1.join(', ')})`}
                </option>
              ))}
            </select>
            <small>{pairs.length > 0 && `Cylinders that share a coil: ${pairs.map((pair) => pair.join(' and ')).join('; ')}.`}</small>
          </label>
        )}
        <label class="field">
          <span>Model year (for the inspection)</span>
          <input
            type="number"
            inputMode="numeric"
            min={1950}
            max={2100}
            value={modelYear ?? ''}
            onChange={(event) => {
              const year = Number(event.currentTarget.value);
              session.do({ type: 'model-year', year: Number.isInteger(year) && year >= 1900 && year <= 2200 ? year : null });
            }}
          />
        </label>
      </div>
      <TraitsMoved />
    </>
  );
}
