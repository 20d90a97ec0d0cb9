export * from '../../src/proof/pdf-content.ts';
