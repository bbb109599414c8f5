import { defineConfig } from 'vitest/config';

// Vitest finds its configuration by this default export; nothing else in the project has one.
// biome-ignore lint/style/noDefaultExport: the tool asks for it
export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    maxWorkers: 2,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
