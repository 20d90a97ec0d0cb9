import js from '@eslint/js';
import { defineConfig } from 'eslint/config';
import tseslint from 'typescript-eslint';
import { arrows } from './.tools/lint/arrows.js';
import { noCycle } from './.tools/lint/no-cycle.js';
import { ownKeys } from './.tools/lint/own-keys.js';

/** pdfkit's own curves are up to 0.4 % off, and a rectangle would go round the one path writer that is proved true. */
const pdfkitCurves = 'arc|circle|ellipse|quadraticCurveTo|roundedRect|path|rect';
const pdfkitBans = [
  `CallExpression > MemberExpression.callee[computed=false][property.name=/^(?:${pdfkitCurves})$/]`,
  `CallExpression > MemberExpression.callee[computed=true] > Literal.property[value=/^(?:${pdfkitCurves})$/]`,
].map((selector) => ({
  selector,
  message: 'Draw with moveTo, lineTo and bezierCurveTo and our own numbers.',
}));

const styleBans = [
  { selector: 'ExportDefaultDeclaration', message: 'Export by name.' },
  { selector: 'ExportSpecifier[exported.name="default"]', message: 'Export by name.' },
  { selector: 'TSEnumDeclaration', message: 'Use a union of strings.' },
  { selector: 'ClassDeclaration:not([superClass.name="Error"])', message: 'Only errors are classes.' },
  { selector: 'ClassExpression', message: 'Only errors are classes.' },
];

/** What Node has and a browser has not. */
const machineGlobals = ['Buffer', 'process', 'require', 'global', '__dirname', '__filename', 'setImmediate'];

export default defineConfig(
  { ignores: ['dist/', 'out/'] },
  { linterOptions: { reportUnusedDisableDirectives: 'error' } },
  js.configs.recommended,
  { rules: { eqeqeq: 'error', 'max-lines': ['error', { max: 500 }], 'prefer-template': 'error' } },
  {
    files: ['src/**/*.{ts,tsx}'],
    rules: { 'max-lines-per-function': ['error', { max: 80 }] },
  },
  // A screen of the page is one function whose lines are mostly its markup.
  { files: ['src/page/app/**/*.tsx'], rules: { 'max-lines-per-function': 'off' } },
  {
    files: ['**/*.{ts,tsx}'],
    extends: [tseslint.configs.recommendedTypeChecked, tseslint.configs.stylisticTypeChecked],
    languageOptions: { parserOptions: { project: './tsconfig.json', tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/consistent-type-definitions': 'off',
      // Keys of a PDF dictionary are written as strings, as they stand in the file.
      '@typescript-eslint/dot-notation': 'off',
      // Contradicts no-non-null-assertion.
      '@typescript-eslint/non-nullable-type-assertion-style': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { varsIgnorePattern: '^_', argsIgnorePattern: '^_' }],
      '@typescript-eslint/restrict-template-expressions': [
        'error',
        { allowNumber: true, allowBoolean: true },
      ],
      '@typescript-eslint/return-await': 'error',
      '@typescript-eslint/strict-boolean-expressions': [
        'error',
        { allowNullableBoolean: true, allowNullableString: true },
      ],
      '@typescript-eslint/switch-exhaustiveness-check': 'error',
    },
  },
  {
    files: ['**/*.{js,mjs,cjs}'],
    languageOptions: {
      globals: {
        process: 'readonly',
        console: 'readonly',
        performance: 'readonly',
        setImmediate: 'readonly',
      },
    },
  },
  {
    files: ['src/**/*.{ts,tsx}'],
    plugins: { soapstone: { rules: { arrows, 'no-cycle': noCycle, 'own-keys': ownKeys } } },
    rules: {
      'soapstone/arrows': 'error',
      'soapstone/no-cycle': 'error',
      'soapstone/own-keys': 'error',
      'no-console': 'error',
      'no-restricted-syntax': ['error', ...styleBans, ...pdfkitBans],
      '@typescript-eslint/explicit-module-boundary-types': 'error',
      '@typescript-eslint/no-non-null-assertion': 'error',
    },
  },
  // Other writers have curves of their own, which are exact.
  { files: ['src/render/svg*.ts'], rules: { 'no-restricted-syntax': ['error', ...styleBans] } },
  {
    files: ['src/**/*.{ts,tsx}'],
    ignores: [
      'src/cli/**',
      'src/jobs/**',
      'src/proof/**',
      'src/render/{write-file,file-fault,drafts,owner,font-files,native}.ts',
      'src/words/catalog-file.ts',
    ],
    rules: {
      'no-restricted-globals': [
        'error',
        ...machineGlobals.map((name) => ({ name, message: 'This code also runs in a browser.' })),
      ],
    },
  },
  {
    files: ['tests/**/*.ts'],
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/require-await': 'off',
    },
  },
);
