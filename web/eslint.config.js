import js from "@eslint/js";
import svelte from "eslint-plugin-svelte";
import globals from "globals";
import ts from "typescript-eslint";
import svelteConfig from "./svelte.config.js";

export default ts.config(
  {
    ignores: [
      "dist/",
      "node_modules/",
      "src/api/types.gen.ts",
      "test-results/",
      "playwright-report/",
    ],
  },
  js.configs.recommended,
  ...ts.configs.strict,
  ...svelte.configs.recommended,
  {
    languageOptions: { globals: { ...globals.browser, ...globals.node } },
    rules: {
      "no-undef": "off",
      "no-restricted-syntax": [
        "error",
        { selector: "TSEnumDeclaration", message: "Use a union of strings." },
      ],
    },
  },
  {
    files: ["**/*.svelte", "**/*.svelte.ts"],
    languageOptions: {
      parserOptions: { parser: ts.parser, extraFileExtensions: [".svelte"], svelteConfig },
    },
  },
  {
    // Only the api module speaks to the program; everything else asks it.
    files: ["src/**/*.ts", "src/**/*.svelte"],
    ignores: ["src/api/**"],
    rules: {
      "no-restricted-globals": ["error", { name: "fetch", message: "Ask through src/api." }],
    },
  },
);
