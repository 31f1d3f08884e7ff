/** Starts the workbench in the page. */
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './App.tsx'
import { registerWorker } from './phone/register.ts'
import './workbench/theme.css'
import './workbench/layout.css'
import { bench } from './workbench/bench.ts'
import { startTheme } from './workbench/theme.ts'

startTheme()
void bench.start()
registerWorker()

createRoot(document.getElementById('root')!).render(
  <StrictMode>
    <App />
  </StrictMode>,
)
