import { expose } from 'comlink';
import { core } from './core.ts';

expose(core);
