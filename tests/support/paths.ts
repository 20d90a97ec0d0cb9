export * from '../../src/proof/paths.ts';
