import { render } from 'preact';
import { Page } from './page.tsx';
import { start, startLanguage, tellFault } from './state.ts';
import './style/page.css';

const root = document.getElementById('page');
const open = async (): Promise<void> => {
  await startLanguage();
  if (root !== null) render(<Page />, root);
  await start();
};
void open().catch(tellFault);
// A browser has no service worker where the page comes over plain http from another machine.
if (
  'serviceWorker' in navigator &&
  location.protocol.startsWith('http') &&
  document.querySelector('link[rel="manifest"]') !== null
)
  void navigator.serviceWorker.register('keeper.js');
