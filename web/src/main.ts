import "@fontsource/atkinson-hyperlegible/400.css";
import "@fontsource/atkinson-hyperlegible/400-italic.css";
import "@fontsource/atkinson-hyperlegible/700.css";
import "./page.css";
import { mount } from "svelte";
import App from "./App.svelte";

const target = document.getElementById("page");
if (target) mount(App, { target });
