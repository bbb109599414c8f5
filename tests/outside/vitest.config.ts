import { defineConfig } from 'vitest/config';

// biome-ignore lint/style/noDefaultExport: the tool asks for it
export default defineConfig({
  test: {
    include: ['tests/outside/**/*.outside.ts'],
    maxWorkers: 2,
    testTimeout: 120_000,
    hookTimeout: 120_000,
  },
});
