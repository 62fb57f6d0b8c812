/** The parts of what can be told, in one piece for when the first of them is opened. */
export { Car } from './Car.tsx';
export { Numbers } from './Numbers.tsx';
export { RecentWork, Replaced, Tools } from './Shop.tsx';
export { Conditions, Symptoms } from './Symptoms.tsx';
