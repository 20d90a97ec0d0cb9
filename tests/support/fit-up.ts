export * from '../../src/proof/fit-up.ts';
