export * from '../../src/proof/heads.ts';
