/** The window's beginning: puts the workbench on the page. */
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';

const root = document.getElementById('root');
if (!root) throw new RangeError('the page has no root element');
createRoot(root).render(
  <StrictMode>
    <main>Reglet</main>
  </StrictMode>,
);
