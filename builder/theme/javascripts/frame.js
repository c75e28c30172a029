// What the theme's own script expects to find: a place to remember things under, and a way to do it.
var __md_scope = new URL(document.currentScript.src.replace(/javascripts\/frame\.js.*$/, ""));
var __md_hash = (text) => [...text].reduce((sum, char) => (sum << 5) - sum + char.charCodeAt(0), 0);
var __md_get = (key, store = localStorage, scope = __md_scope) => JSON.parse(store.getItem(scope.pathname + "." + key));
var __md_set = (key, value, store = localStorage, scope = __md_scope) => {
  try {
    store.setItem(scope.pathname + "." + key, JSON.stringify(value));
  } catch (full) {
    // A full or forbidden store only means that nothing is remembered.
  }
};
