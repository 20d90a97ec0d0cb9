export * from '../../src/proof/pdf-catalog.ts';
