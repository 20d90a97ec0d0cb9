export * from '../../src/proof/pdf-reader.ts';
