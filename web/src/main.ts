import { mount } from 'svelte';
import App from './app/App.svelte';
import './app/theme.css';

mount(App, { target: document.body });

if (import.meta.env.PROD && 'serviceWorker' in navigator) void navigator.serviceWorker.register('sw.js');
