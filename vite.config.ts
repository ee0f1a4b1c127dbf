import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/**
 * `generated/public` (wasm, models, reference clips) is made by `scripts/assets/prepare.ts`; nothing in it is
 * bundled, everything is served from the app's own origin under the same security policy.
 */
export default defineConfig({
  base: './',
  publicDir: 'generated/public',
  plugins: [react()],
  worker: { format: 'es' },
  // The pose library loads its wasm loader itself; pre-bundling would break the relative addresses it uses.
  optimizeDeps: { exclude: ['@mediapipe/tasks-vision'] },
  build: {
    outDir: 'dist',
    target: 'es2023',
    sourcemap: true,
    // The demuxer and the pose engine come in large pieces of their own, loaded when a take is opened.
    chunkSizeWarningLimit: 1000,
    rolldownOptions: { checks: { pluginTimings: false }, input: { app: 'index.html', lab: 'lab.html' } },
  },
});
