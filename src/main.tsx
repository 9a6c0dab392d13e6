import { render } from 'preact';
import './ui/style/tokens.css';
import './ui/style/base.css';
import './ui/style/parts.css';
import { createApplication } from './app/application.ts';
import { trustOwnScripts } from './app/trusted-scripts.ts';
import { App } from './ui/App.tsx';

trustOwnScripts();
const host = document.getElementById('app');
if (host === null) throw new Error('The page has no element with id "app".');
render(<App application={createApplication({ serviceWorkerAddress: import.meta.env.PROD ? '/service-worker.js' : null })} />, host);
