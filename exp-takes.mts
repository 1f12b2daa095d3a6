import { takesTable } from './tests/bench/engine/takes';
console.log(takesTable());
