import type { Order } from '../compile/order.ts';
import type { Formulation } from '../engine/formulate.ts';
import { shownOrderFor } from './orders.ts';

export interface CodeOrder {
  readonly formulation: Formulation;
  readonly order: Order;
}

/** The situation "this code and nothing else known" and its computed order; a build has it at hand, `npm run dev` computes it. */
export function codeOrders(formulationOf: (code: string) => Formulation): (code: string) => CodeOrder {
  const orders = new Map<string, CodeOrder>();
  return (code) => {
    let found = orders.get(code);
    if (!found) {
      const formulation = formulationOf(code);
      found = { formulation, order: shownOrderFor(formulation.model) };
      orders.set(code, found);
    }
    return found;
  };
}
