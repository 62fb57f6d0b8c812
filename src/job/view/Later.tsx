/** Parts of the view that are fetched when they are first shown: most visits do without them. They are in the offline copy. */
import type { ComponentChildren, ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';

type Load<Props> = () => Promise<ComponentType<Props>>;

const here = new Map<unknown, ComponentType<never>>();

interface LaterProps<Props> {
  /** The same function each time: what it brings is kept under it. */
  readonly load: Load<Props>;
  readonly props: Props;
  /** Shown until it is there. */
  readonly waiting?: ComponentChildren;
}

export function Later<Props extends object>({ load, props, waiting }: LaterProps<Props>) {
  const [missing, setMissing] = useState(false);
  const [, arrived] = useState(0);
  const View = here.get(load) as ComponentType<Props> | undefined;
  useEffect(() => {
    if (here.has(load)) return;
    load().then(
      (view) => {
        here.set(load, view as ComponentType<never>);
        arrived((count) => count + 1);
      },
      () => setMissing(true),
    );
  }, [load]);
  if (View) return <View {...props} />;
  if (missing) return <p role="alert">This part of the page is not on this device yet. Go online once and load the page anew.</p>;
  return <>{waiting}</>;
}
