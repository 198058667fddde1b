// Search, and the choice of houses to compare. Everything is in the pages already; nothing is fetched.
"use strict";

const MOST = 40;
const up = document.body.dataset.up ?? "";

/** The entries in which every word asked for stands, those whose name begins with it first. */
function search(asked) {
    const words = asked.toLowerCase().split(/[\s_]+/).filter((word) => word !== "");
    if (words.length === 0) {
        return [];
    }
    const rated = [];
    for (const entry of ENTRIES) {
        const name = entry.name.toLowerCase();
        const all = `${name} ${entry.of} ${entry.words}`.toLowerCase().replaceAll("_", " ");
        if (words.every((word) => all.includes(word))) {
            const rank = (name.startsWith(words[0]) ? 0 : 2) + (entry.of === "house" ? 0 : 1);
            rated.push([rank, entry]);
        }
    }
    rated.sort((a, b) => a[0] - b[0]);
    return rated.map((pair) => pair[1]);
}

function showHits(input, list, count) {
    const hits = search(input.value);
    list.replaceChildren(
        ...hits.slice(0, MOST).map((hit) => {
            const link = document.createElement("a");
            link.href = up + hit.to;
            const of = document.createElement("span");
            of.textContent = ` · ${hit.of}`;
            const name = document.createElement("bdi");
            name.textContent = hit.name;
            link.append(name, of);
            const item = document.createElement("li");
            item.append(link);
            return item;
        }),
    );
    list.hidden = hits.length === 0;
    count.textContent = input.value === "" ? "" : `${hits.length} found`;
}

const input = document.querySelector("#search");
const list = document.querySelector("#found");
const count = document.querySelector("#found-count");
if (input && list && count) {
    input.addEventListener("input", () => showHits(input, list, count));
    input.addEventListener("keydown", (event) => {
        if (event.key === "Escape") {
            input.value = "";
            showHits(input, list, count);
        } else if (event.key === "Enter") {
            list.querySelector("a")?.click();
        }
    });
}

const columns = document.querySelector("#columns");
if (columns) {
    const boxes = [...columns.querySelectorAll("input")];
    const asked = new URLSearchParams(location.search).getAll("house").concat(location.hash.slice(1) || []);
    if (asked.length > 1) {
        for (const box of boxes) {
            box.checked = asked.includes(box.value);
        }
    }
    const apply = () => {
        for (const box of boxes) {
            for (const cell of document.querySelectorAll(`[data-house="${CSS.escape(box.value)}"]`)) {
                cell.hidden = !box.checked;
            }
        }
    };
    columns.addEventListener("change", apply);
    apply();
}
