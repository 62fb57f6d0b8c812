/** Cautions before steps: signal word, symbols, what hurts, how to avoid it. */
import type { SharedCards } from '../card-types.ts';

export function Cautions({ ids, shared }: { readonly ids: readonly string[]; readonly shared: SharedCards }) {
  const cautions = ids.flatMap((id) => (shared.cautions[id] ? [{ id, ...shared.cautions[id] }] : []));
  const grave = cautions.filter(({ signal }) => signal === 'DANGER' || signal === 'WARNING');
  const light = cautions.filter(({ signal }) => signal !== 'DANGER' && signal !== 'WARNING');
  return (
    <>
      {grave.map((caution) => (
        <Caution key={caution.id} {...caution} />
      ))}
      {light.length > 0 && (
        <ul class="caution-lines">
          {light.map((caution) => (
            <li key={caution.id}>
              <b>
                {caution.signal}: {caution.title}.
              </b>{' '}
              {caution.avoid.join(' ')}
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

function Caution(caution: SharedCards['cautions'][string] & { readonly id: string }) {
  return (
    <section class={`caution caution-${caution.signal.toLowerCase()}`} aria-label={`${caution.signal}: ${caution.title}`}>
      <p class="caution-signal">
        <svg viewBox="0 0 24 22" width="22" height="20" aria-hidden="true">
          <path d="M12 1 23 21H1z" fill="currentColor" />
          <path class="caution-mark" d="M11 8h2l-.4 6h-1.2zM12 16a1.2 1.2 0 1 1 0 2.4A1.2 1.2 0 0 1 12 16z" />
        </svg>
        {caution.signal}
      </p>
      <div class="caution-body">
        <div class="caution-symbols">
          {caution.symbols.slice(0, 2).map((number) => (
            <svg key={number} class="symbol" viewBox="0 0 64 64" width={44} height={44} aria-hidden="true">
              <use href={`#symbol-${number}`} />
            </svg>
          ))}
        </div>
        <div>
          <p class="caution-title">{caution.title}</p>
          <p>{caution.hazard}</p>
          <ul>
            {caution.avoid.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          {caution.handOver && (
            <p>
              <strong>{caution.handOver}</strong>
            </p>
          )}
        </div>
      </div>
    </section>
  );
}
