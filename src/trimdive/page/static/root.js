// Where this page lives: its key is part of every address, so that nobody else can ask for anything.

export const ROOT = document.documentElement.dataset.root ?? "";
