export * from '../../src/proof/rolling.ts';
