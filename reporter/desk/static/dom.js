// Elements from plain descriptions, and the patching of what stands there into what is wanted.
// What keeps its place keeps its element: so focus, caret and scrolling stay where the person left them.

const SVG = "http://www.w3.org/2000/svg";
const KEPT = new Set(["key", "hook", "markup"]);

/** A description: name, properties, children; `false` and `null` among the children stand for nothing. */
export function h(name, props = {}, ...children) {
  const told = children
    .flat(Infinity)
    .filter((each) => each !== null && each !== false && each !== undefined && each !== "");
  return {
    name,
    props: props ?? {},
    children: told.map((each) => (typeof each === "object" ? each : { text: String(each) })),
  };
}

/** Make the children of `root` what `wanted` describes. */
export function patch(root, wanted, space = null) {
  const keyed = new Map();
  const loose = [];
  for (const node of root.childNodes) {
    const key = node.told?.props?.key;
    if (key === undefined) loose.push(node);
    else keyed.set(key, node);
  }
  const nodes = wanted.map((each) => {
    const key = each.props?.key;
    const node = key === undefined ? takeLoose(loose, each) : keyed.get(key);
    return node && fits(node, each) ? renewed(node, each, space) : made(each, space);
  });
  // What goes is taken out first: so what stays is moved only where the order itself has changed.
  const kept = new Set(nodes);
  for (const node of [...root.childNodes]) {
    if (kept.has(node)) continue;
    if (node.localName === "dialog" && node.open) node.close(); // so the focus goes back to where it came from
    node.remove();
  }
  nodes.forEach((node, at) => {
    if (root.childNodes[at] !== node) root.insertBefore(node, root.childNodes[at] ?? null);
  });
}

/** The same for the whole page; the focus goes back to where it was when its element had to be moved. */
export function show(root, wanted) {
  const held = document.activeElement;
  patch(root, wanted);
  if (held !== document.activeElement && held?.isConnected) held.focus({ preventScroll: true });
}

/** What looks like a button answers to Enter too: a field for files by itself knows only the space bar. */
export const entered = (event) => {
  if (event.key === "Enter" && navigator.userActivation?.isActive) event.target.showPicker?.();
};

function takeLoose(loose, each) {
  const at = loose.findIndex((node) => fits(node, each));
  return at < 0 ? null : loose.splice(0, at + 1)[at];
}

function fits(node, each) {
  if (each.text !== undefined) return node.nodeType === Node.TEXT_NODE;
  return node.told?.name === each.name;
}

function made(each, space) {
  if (each.text !== undefined) return document.createTextNode(each.text);
  const inside = each.name === "svg" ? SVG : space;
  const node = inside ? document.createElementNS(inside, each.name) : document.createElement(each.name);
  node.told = { name: each.name, props: {} };
  renewed(node, each, space);
  each.props.hook?.(node);
  return node;
}

function renewed(node, each, space) {
  if (each.text !== undefined) {
    if (node.data !== each.text) node.data = each.text;
    return node;
  }
  const before = node.told.props;
  node.told = { name: each.name, props: each.props };
  if (each.props.markup !== undefined) {
    if (each.props.markup !== before.markup) node.replaceChildren(...drawn(each.props.markup));
  } else if (each.name !== "textarea") patch(node, each.children, each.name === "svg" ? SVG : space);
  for (const name of Object.keys(before)) if (!(name in each.props)) put(node, name, null, before[name]);
  for (const [name, value] of Object.entries(each.props)) put(node, name, value, before[name]);
  return node;
}

function put(node, name, value, before) {
  if (KEPT.has(name)) return;
  if (name.startsWith("on")) node[name] = value ?? null;
  else if (name === "css") for (const [key, each] of Object.entries(value ?? {})) node.style.setProperty(key, each);
  else if (name === "value") putValue(node, value ?? "", before);
  else if (name === "checked" || name === "open" || name === "disabled" || name === "indeterminate") {
    if (value !== before) node[name] = Boolean(value);
  } else if (value === before) return;
  else if (value === null || value === undefined || value === false) node.removeAttribute(name);
  else node.setAttribute(name, value === true ? "" : value);
}

// What somebody is typing is theirs: it is not overwritten by news from elsewhere.
function putValue(node, value, before) {
  const typing = document.activeElement === node && before !== undefined && node.value !== String(before);
  if (!typing && node.value !== String(value)) node.value = value;
}

const UNFIT = "script, style, iframe, object, embed, link, meta, form, foreignObject, animate, set";

/** The elements of a piece of markup that the program has made; whatever could act is taken out all the same. */
export function drawn(markup) {
  const body = new DOMParser().parseFromString(markup, "text/html").body;
  for (const each of body.querySelectorAll(UNFIT)) each.remove();
  for (const each of body.querySelectorAll("*")) {
    for (const { name, value } of [...each.attributes]) {
      const leads = /href$|^src$/.test(name) && !/^(#|\/(photo|thumb)\/|data:image\/)/.test(value);
      if (/^on|^style$/.test(name) || leads) each.removeAttribute(name);
    }
  }
  return [...body.childNodes].map((each) => document.importNode(each, true));
}
