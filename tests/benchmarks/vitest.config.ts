import { defineConfig } from 'vitest/config';

// The benchmarks print figures and compare nothing, so they are no part of the tests.
// biome-ignore lint/style/noDefaultExport: the tool asks for it
export default defineConfig({
  test: { include: ['tests/benchmarks/**/*.bench.ts'], maxWorkers: 1, testTimeout: 7_200_000 },
});
