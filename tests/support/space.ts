export * from '../../src/proof/space.ts';
