import { render } from 'preact';
import { Page } from './page.tsx';
import { start, tellFault } from './state.ts';
import './style/page.css';

const root = document.getElementById('page');
if (root !== null) render(<Page />, root);
void start().catch(tellFault);
if (location.protocol.startsWith('http') && document.querySelector('link[rel="manifest"]') !== null)
  void navigator.serviceWorker.register('keeper.js');
