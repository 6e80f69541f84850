// Draws a scene's solids as a drafter does: what is seen in ink, what is behind left out or dashed.
// Surfaces only hide; the canvas holds nothing but ink, so that the page's own paper shows through.

const FACES = `#version 300 es
uniform mat3 view; uniform vec3 shift, middle; uniform vec2 fit, place; uniform float deep;
in vec3 at;
void main() {
  vec3 p = view * (at + shift - middle);
  gl_Position = vec4(p.xy * fit + place, -p.z * deep, 1.0);
}`;
const MARK = `#version 300 es
precision mediump float;
uniform float mark;
out vec4 ink;
void main() { ink = vec4(mark, 0.0, 0.0, 1.0); }`;

// An edge is a strip of even width on the screen. One that is no line of the solid is drawn only
// where the surface turns away at it: one neighbour looks to the eye, the other doesn't.
const EDGES = `#version 300 es
uniform mat3 view; uniform vec3 shift, middle; uniform vec2 fit, place, screen;
uniform float deep, wide, behind;
in vec2 corner; in vec3 start, end, left, right; in float kind;
flat out vec3 from, to;
flat out float narrow, away;
out vec2 here;
vec3 seen(vec3 at) {
  vec3 p = view * (at + shift - middle);
  return vec3((0.5 * (p.xy * fit + place) + 0.5) * screen, 0.5 - 0.5 * p.z * deep);
}
void main() {
  vec3 eye = vec3(view[0].z, view[1].z, view[2].z);
  bool one = dot(left, eye) > 1e-4, other = dot(right, eye) > 1e-4;
  bool hollow = kind > 3.5;
  float line = hollow ? kind - 4.0 : kind;
  away = !one && !other || hollow && one != other ? 1.0 : 0.0; // hidden by what it borders
  bool drawn = (line > 0.5 || one != other) && away <= behind;
  if (!drawn) { gl_Position = vec4(2.0, 2.0, 2.0, 1.0); return; }
  from = seen(start);
  to = seen(end);
  narrow = line > 1.5 ? 1.0 : 0.0;
  vec2 way = to.xy - from.xy;
  float far = length(way), reach = 0.5 * wide + 1.0;
  way = far > 1e-3 ? way / far : vec2(1.0, 0.0);
  here = vec2(corner.x < 0.5 ? -reach : far + reach, corner.y * reach);
  vec2 dot_ = from.xy + way * here.x + vec2(-way.y, way.x) * here.y;
  gl_Position = vec4(2.0 * dot_ / screen - 1.0, 0.0, 1.0);
}`;
// What is behind a surface is judged on the middle of the line, so that no line is cut lengthwise;
// the farthest of the dots there and to both sides counts: what a line borders doesn't hide it.
const INK = `#version 300 es
precision highp float;
uniform highp sampler2D depths;
uniform vec3 colour; uniform float wide, behind, dash, slack;
flat in vec3 from, to;
flat in float narrow, away;
in vec2 here;
out vec4 ink;
void main() {
  vec2 way = to.xy - from.xy;
  float far = length(way);
  vec3 middle = mix(from, to, far > 1e-3 ? clamp(here.x / far, 0.0, 1.0) : 0.0);
  vec2 last = vec2(textureSize(depths, 0)) - 0.5, side = 0.75 * vec2(-way.y, way.x) / max(far, 1e-3);
  float farthest = 0.0;
  for (float i = -1.0; i < 2.0; i++)
    farthest = max(farthest, texelFetch(depths, ivec2(clamp(middle.xy + i * side, vec2(0.0), last)), 0).r);
  bool hidden = away > 0.5 || middle.z - slack > farthest;
  if (hidden && behind < 0.5) discard;
  float half_width = 0.5 * (hidden || narrow > 0.5 ? max(0.55 * wide, 1.0) : wide);
  float past = max(max(-here.x, here.x - far), 0.0);
  float cover = clamp(half_width + 0.5 - length(vec2(past, here.y)), 0.0, 1.0);
  bool level = abs(way.x) > abs(way.y);
  if (hidden && fract((level ? gl_FragCoord.x : gl_FragCoord.y) / dash) > 0.58) discard;
  ink = vec4(colour * cover, cover);
}`;

const built = (gl, vertex, fragment) => {
  const program = gl.createProgram();
  for (const [kind, source] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, source);
    gl.compileShader(shader);
    gl.attachShader(program, shader);
  }
  gl.linkProgram(program);
  if (!gl.getProgramParameter(program, gl.LINK_STATUS) && !gl.isContextLost()) {
    throw new Error(gl.getProgramInfoLog(program));
  }
  const places = {};
  for (let i = gl.getProgramParameter(program, gl.ACTIVE_UNIFORMS); i--;) {
    const { name } = gl.getActiveUniform(program, i);
    places[name] = gl.getUniformLocation(program, name);
  }
  return { program, places };
};

const filled = (gl, target, data) => {
  const buffer = gl.createBuffer();
  gl.bindBuffer(target, buffer);
  gl.bufferData(target, data, gl.STATIC_DRAW);
  return buffer;
};

// Two corners, two normals and the kind of every edge, then which corner of its strip: 15 numbers,
// four times each. (Instances would be shorter, but each of them costs a renderer in software dearly.)
const WIDTH = 15;
const PLACES = { start: [0, 3], end: [3, 3], left: [6, 3], right: [9, 3], kind: [12, 1], corner: [13, 2] };
const edgeTable = ({ edges, normals, positions }) => {
  const count = edges.length / 5;
  const table = new Float32Array(4 * WIDTH * count), order = new Uint32Array(6 * count);
  for (let i = 0; i < count; i++) {
    const [a, b, n, m, kind] = edges.slice(5 * i, 5 * i + 5);
    for (let v = 0; v < 4; v++) {
      const at = WIDTH * (4 * i + v);
      for (let k = 0; k < 3; k++) {
        table[at + k] = positions[3 * a + k];
        table[at + 3 + k] = positions[3 * b + k];
        table[at + 6 + k] = normals[3 * n + k] / 1000;
        table[at + 9 + k] = normals[3 * m + k] / 1000;
      }
      table.set([kind, v >> 1, 2 * (v & 1) - 1], at + 12);
    }
    order.set([0, 1, 2, 2, 1, 3].map((v) => 4 * i + v), 6 * i);
  }
  return { table, order };
};

export class Draughtsman {
  // Throws where the browser has no WebGL 2.
  constructor(canvas) {
    const gl = canvas.getContext("webgl2", { antialias: false, alpha: true, depth: false });
    if (!gl) throw new Error("no WebGL 2");
    this.gl = gl;
    this.solids = [];
    this.faces = built(gl, FACES, MARK);
    this.lines = built(gl, EDGES, INK);
    this.behind = { frame: gl.createFramebuffer(), marks: gl.createRenderbuffer(), depths: gl.createTexture() };
    gl.clearColor(0, 0, 0, 0);
    gl.depthFunc(gl.LEQUAL);
    gl.blendEquation(gl.MAX); // ink on ink is no blacker
    gl.blendFunc(gl.ONE, gl.ONE);
  }

  // Take another scene: each solid {positions (Float32Array, mm), triangles, normals, edges}.
  take(solids) {
    const { gl } = this;
    for (const old of this.solids) {
      gl.deleteVertexArray(old.surface);
      gl.deleteVertexArray(old.outline);
      old.buffers.forEach((buffer) => gl.deleteBuffer(buffer));
    }
    this.solids = solids.map((solid) => this.#loaded(solid));
  }

  #loaded(solid) {
    const { gl } = this;
    const surface = gl.createVertexArray();
    gl.bindVertexArray(surface);
    const corners = filled(gl, gl.ARRAY_BUFFER, solid.positions);
    const triangles = filled(gl, gl.ELEMENT_ARRAY_BUFFER, new Uint32Array(solid.triangles));
    this.#attribute(this.faces, "at", 3, 0, 0);
    const outline = gl.createVertexArray();
    gl.bindVertexArray(outline);
    const { table, order } = edgeTable(solid);
    const edges = filled(gl, gl.ARRAY_BUFFER, table), strips = filled(gl, gl.ELEMENT_ARRAY_BUFFER, order);
    for (const [name, [first, size]] of Object.entries(PLACES)) this.#attribute(this.lines, name, size, 4 * WIDTH, 4 * first);
    gl.bindVertexArray(null);
    return { surface, outline, buffers: [corners, triangles, edges, strips], corners: solid.triangles.length, strips: order.length };
  }

  #attribute({ program }, name, size, stride, offset) {
    const { gl } = this;
    const place = gl.getAttribLocation(program, name);
    gl.enableVertexAttribArray(place);
    gl.vertexAttribPointer(place, size, gl.FLOAT, false, stride, offset);
  }

  // look: {view (9 numbers, by columns), middle, fit, place, deep, slack, shifts, colour, wide, hidden}
  draw(look) {
    const { gl } = this;
    const { drawingBufferWidth: width, drawingBufferHeight: height } = gl;
    this.#surfaces(look, width, height);
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    gl.viewport(0, 0, width, height);
    gl.clear(gl.COLOR_BUFFER_BIT);
    gl.enable(gl.BLEND);
    const { program, places } = this.lines;
    gl.useProgram(program);
    this.#look(places, look);
    gl.uniform2f(places.screen, width, height);
    gl.uniform1f(places.wide, look.wide);
    gl.uniform1f(places.dash, 5 * look.wide);
    gl.uniform1f(places.slack, look.slack);
    gl.uniform1f(places.behind, look.hidden ? 1 : 0);
    gl.uniform3fv(places.colour, look.colour);
    this.solids.forEach((solid, i) => {
      gl.bindVertexArray(solid.outline);
      gl.uniform3fv(places.shift, look.shifts[i]);
      gl.drawElements(gl.TRIANGLES, solid.strips, gl.UNSIGNED_INT, 0);
    });
    gl.disable(gl.BLEND);
  }

  // Which solid is seen at each dot of a smaller picture: its number + 1 in every fourth byte.
  seen(look, width, height) {
    const { gl } = this;
    this.#surfaces(look, width, height);
    if (this.dots?.length !== 4 * width * height) this.dots = new Uint8Array(4 * width * height);
    gl.readPixels(0, 0, width, height, gl.RGBA, gl.UNSIGNED_BYTE, this.dots);
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    return this.dots;
  }

  // How far the surfaces are from the eye, and whose they are, kept beside the canvas.
  #surfaces(look, width, height) {
    const { gl } = this;
    const { program, places } = this.faces;
    this.#roomy();
    gl.viewport(0, 0, width, height);
    gl.enable(gl.DEPTH_TEST);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    gl.useProgram(program);
    this.#look(places, look);
    this.solids.forEach((solid, i) => {
      gl.bindVertexArray(solid.surface);
      gl.uniform3fv(places.shift, look.shifts[i]);
      gl.uniform1f(places.mark, (i + 1) / 255);
      gl.drawElements(gl.TRIANGLES, solid.corners, gl.UNSIGNED_INT, 0);
    });
    gl.disable(gl.DEPTH_TEST);
  }

  // As large as the canvas is.
  #roomy() {
    const { gl, behind } = this;
    const { drawingBufferWidth: width, drawingBufferHeight: height } = gl;
    gl.bindFramebuffer(gl.FRAMEBUFFER, behind.frame);
    if (behind.width === width && behind.height === height) return;
    Object.assign(behind, { width, height });
    gl.bindRenderbuffer(gl.RENDERBUFFER, behind.marks);
    gl.renderbufferStorage(gl.RENDERBUFFER, gl.RGBA8, width, height);
    gl.framebufferRenderbuffer(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0, gl.RENDERBUFFER, behind.marks);
    gl.bindTexture(gl.TEXTURE_2D, behind.depths);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.DEPTH_COMPONENT24, width, height, 0, gl.DEPTH_COMPONENT, gl.UNSIGNED_INT, null);
    for (const name of ["MIN", "MAG"]) gl.texParameteri(gl.TEXTURE_2D, gl[`TEXTURE_${name}_FILTER`], gl.NEAREST);
    gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.TEXTURE_2D, behind.depths, 0);
  }

  #look(places, look) {
    const { gl } = this;
    gl.uniformMatrix3fv(places.view, false, look.view);
    gl.uniform3fv(places.middle, look.middle);
    gl.uniform2fv(places.fit, look.fit);
    gl.uniform2fv(places.place, look.place);
    gl.uniform1f(places.deep, look.deep);
  }
}
