export { factsThatRefute, fewestOf, refutationNodes } from '../techniques/refute.ts';
