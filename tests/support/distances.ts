export * from '../../src/proof/distances.ts';
