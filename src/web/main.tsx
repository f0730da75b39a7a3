/** Where the page begins. */
import './look/tokens.css';
import './look/base.css';
import './look/sheet.css';
import './look/rows.css';
import './look/tags.css';
import './look/phone.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { keepPage } from './offline/page-worker.ts';
import { FaultLeaf } from './sheet/fault-leaf.tsx';
import { startTheme } from './sheet/theme.ts';

startTheme();
const place = document.getElementById('sheet');
if (place === null) throw new Error('internal: the page has no place for the sheet; report it');
createRoot(place).render(
  <StrictMode>
    <FaultLeaf>
      <App />
    </FaultLeaf>
  </StrictMode>,
);

// After the page stands: fetching all of it for later must not hold up what is wanted now.
if (import.meta.env.PROD) window.addEventListener('load', () => void keepPage());
