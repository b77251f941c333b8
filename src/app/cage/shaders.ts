/** The picture's shading programs, vertex and fragment. CLIP and DASH stand for the pieces below. */

export const CLIP_VERTEX = "#include <clipping_planes_vertex>";
export const CLIP_FRAGMENT = "vec4 diffuseColor = vec4(1.0);\n#include <clipping_planes_fragment>";

/** How far back a place is: 0 where the nearest of the bars is, 1 at the farthest. */
const FAR = "vFar = clamp((-mvPosition.z - uDepth.x) * uDepth.y, 0.0, 1.0);";
const FAR_PARS = /* glsl */ `
  uniform vec2 uDepth;
  varying float vFar;
`;
/**
 * Device pixels of an outline's width: near by it is wider than said, far off thinner, and never so thin that without
 * smoothing it would break up.
 */
const strokeOf = (least: number): string =>
  `max(uWidth * mix(1.25, 0.6, vFar) * uWeight, ${least.toFixed(1)})`;

/** Leaves out the gaps of a line type, where it has any; vAlong is the distance along it (mm). */
export const DASH = /* glsl */ `
  #ifndef SOLID
  float p = fract(vAlong / (uRepeat * uGrain));
  if (!((p >= uOn[0].x && p < uOn[0].y) || (p >= uOn[1].x && p < uOn[1].y) || (p >= uOn[2].x && p < uOn[2].y))) discard;
  #endif
`;

const STROKE_FRAGMENT = /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform vec3 uColour;
  uniform vec3 uGround;
  uniform float uPale;
  varying float vFar;
  #ifndef SOLID
  uniform float uRepeat;
  uniform float uGrain;
  uniform vec2 uOn[3];
  varying float vAlong;
  #endif
  void main() {
    CLIP
    DASH
    gl_FragColor = vec4(mix(uColour, uGround, uPale * vFar), 1.0);
  }
`;

const LIT_PARS = /* glsl */ `
  uniform vec3 uFace;
  uniform vec3 uEdge;
  uniform vec3 uGround;
  uniform vec3 uLight;
  uniform float uPaleFace;
  varying vec3 vNormal;
  vec3 lit(vec3 n) {
    return mix(mix(uEdge, uFace, smoothstep(-0.35, 0.85, dot(n, uLight))), uGround, uPaleFace * vFar);
  }
`;

/** A surface under light from above; from behind (in a section) the cut face's flat colour. */
export const FILL: readonly [string, string] = [
  /* glsl */ `
  #include <clipping_planes_pars_vertex>
  ${FAR_PARS}
  varying vec3 vNormal;
  varying vec3 vSight;
  void main() {
    vNormal = normalMatrix * normal;
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    vSight = isOrthographic ? vec3(0.0, 0.0, 1.0) : -mvPosition.xyz;
    gl_Position = projectionMatrix * mvPosition;
    ${FAR}
    CLIP
  }`,
  /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform vec3 uCut;
  varying float vFar;
  ${LIT_PARS}
  varying vec3 vSight;
  void main() {
    CLIP
    vec3 n = normalize(vNormal);
    vec3 colour = lit(n);
    // A long thin triangle's own winding flips when its corners are rounded to pixels; the surface's direction does not.
    gl_FragColor = vec4(dot(n, normalize(vSight)) > -0.03 ? colour : uCut, 1.0);
  }`,
];

/** The far side of a body, pushed out square to the line of sight: what shows of it around the body is its outline. */
export const HULL: readonly [string, string] = [
  /* glsl */ `
  #include <clipping_planes_pars_vertex>
  ${FAR_PARS}
  uniform vec2 uViewport;
  uniform float uWeight;
  uniform float uWidth;
  void main() {
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    ${FAR}
    gl_Position = projectionMatrix * mvPosition;
    vec2 away = normalize(normalMatrix * normal).xy;
    gl_Position.xy += away * ${strokeOf(0.7)} * 2.0 / uViewport * gl_Position.w;
    CLIP
  }`,
  STROKE_FRAGMENT,
];

/**
 * Surface and outline at one go, for motion: as wide as with its outline around it, whose pixels are counted from the
 * edge on as in GHOST. On a tube of few lines the outline is a little uneven, which no eye sees of what moves.
 */
export const DRAFT: readonly [string, string] = [
  /* glsl */ `
  #include <clipping_planes_pars_vertex>
  ${FAR_PARS}
  uniform vec2 uViewport;
  uniform float uWeight;
  uniform float uWidth;
  varying vec3 vNormal;
  void main() {
    vNormal = normalMatrix * normal;
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    ${FAR}
    gl_Position = projectionMatrix * mvPosition;
    gl_Position.xy += vNormal.xy * ${strokeOf(1.2)} * 2.0 / uViewport * gl_Position.w;
    CLIP
  }`,
  /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform vec3 uColour;
  uniform float uPale;
  uniform float uWeight;
  uniform float uWidth;
  varying float vFar;
  ${LIT_PARS}
  void main() {
    CLIP
    vec3 n = normalize(vNormal);
    float squared = n.z * n.z;
    float slope = fwidth(squared);
    vec3 colour = lit(n);
    if (squared < slope * ${strokeOf(1.2)}) colour = mix(uColour, uGround, uPale * vFar);
    gl_FragColor = vec4(colour, 1.0);
  }`,
];

/**
 * A segment as a strip `uWidth` CSS pixels wide, lengthened by half that at both ends so that chains close, and lifted
 * toward the viewer by about a pixel (less than a plate is thick) so that a line on a surface is not half buried in it.
 */
export const LINE: readonly [string, string] = [
  /* glsl */ `
  #include <clipping_planes_pars_vertex>
  attribute vec3 from;
  attribute vec3 to;
  #ifndef SOLID
  attribute vec2 span;
  varying float vAlong;
  #endif
  ${FAR_PARS}
  uniform vec2 uViewport;
  uniform float uWeight;
  uniform float uWidth;
  uniform float uPixel;
  void main() {
    // The strip's corners in their order: left and right at its start, right and left at its end.
    int corner = gl_VertexID & 3;
    bool isFirst = corner < 2;
    float across = corner == 0 || corner == 3 ? -1.0 : 1.0;
    vec4 a = modelViewMatrix * vec4(from, 1.0);
    vec4 b = modelViewMatrix * vec4(to, 1.0);
    // A section cuts the line where it lies, not where it is lifted to.
    vec4 mvPosition = isFirst ? a : b;
    ${FAR}
    float lift = min(0.4 + 0.5 * uPixel, 2.2);
    a.z += lift;
    b.z += lift;
    float ta = 0.0;
    float tb = 1.0;
    if (projectionMatrix[2][3] == -1.0) {
      float near = projectionMatrix[3][2] / (projectionMatrix[2][2] - 1.0);
      if (a.z > -near && b.z < -near) {
        float t = (-near - a.z) / (b.z - a.z);
        ta = t;
        a = mix(a, b, t);
      } else if (b.z > -near && a.z < -near) {
        float t = (-near - b.z) / (a.z - b.z);
        tb = 1.0 - t;
        b = mix(b, a, t);
      }
    }
    vec4 ca = projectionMatrix * a;
    vec4 cb = projectionMatrix * b;
    vec2 dir = (cb.xy / cb.w - ca.xy / ca.w) * uViewport;
    float l = length(dir);
    dir = l > 1e-6 ? dir / l : vec2(1.0, 0.0);
    vec4 clip = isFirst ? ca : cb;
    vec2 off = vec2(-dir.y, dir.x) * across + dir * (isFirst ? -1.0 : 1.0) * 0.5;
    clip.xy += off * ${strokeOf(1)} / uViewport * clip.w;
    #ifndef SOLID
    vAlong = mix(span.x, span.y, isFirst ? ta : tb);
    #endif
    gl_Position = clip;
    CLIP
  }`,
  STROKE_FRAGMENT,
];

/** A body that one sees through, flat. */
export const GHOST: readonly [string, string] = [
  FILL[0],
  /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform vec3 uColour;
  void main() {
    CLIP
    gl_FragColor = vec4(uColour, 0.75);
  }`,
];

/**
 * What is hidden of a rounded body: its outline alone, thin. Near its outline the square of its facing falls evenly to
 * 0, so its slope counts the pixels to it.
 */
export const HIDDEN: readonly [string, string] = [
  FILL[0],
  /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform vec3 uColour;
  uniform float uRatio;
  varying vec3 vNormal;
  void main() {
    CLIP
    float z = normalize(vNormal).z;
    float squared = z * z;
    if (squared > 1.2 * uRatio * fwidth(squared)) discard;
    gl_FragColor = vec4(uColour, 0.8);
  }`,
];

/**
 * A mark where a bar ends, by how far the bar has come: 0 a ring, 1 half filled, 2 full (and 3 more for the bar in
 * hand). It is seen wherever the end's near side is: its depth is that of the tube's side toward the eye.
 */
export const ENDS: readonly [string, string] = [
  /* glsl */ `
  #include <clipping_planes_pars_vertex>
  attribute float how;
  attribute float lift;
  ${FAR_PARS}
  uniform float uWeight;
  uniform float uPixel;
  varying float vHow;
  varying float vSize;
  void main() {
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    ${FAR}
    vHow = how;
    vSize = 5.0 * mix(1.1, 0.72, vFar) * uWeight;
    gl_Position = projectionMatrix * mvPosition;
    vec4 near = projectionMatrix * (mvPosition + vec4(0.0, 0.0, lift + 1.0 + 1.5 * uPixel, 0.0));
    gl_Position.z = near.z / max(near.w, 1.0e-3) * gl_Position.w;
    gl_PointSize = 2.0 * vSize + 2.0;
    CLIP
  }`,
  /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform vec3 uInk;
  uniform vec3 uInHand;
  uniform vec3 uGround;
  uniform float uWeight;
  varying float vFar;
  varying float vHow;
  varying float vSize;
  void main() {
    CLIP
    vec2 p = (2.0 * gl_PointCoord - 1.0) * (vSize + 1.0);
    float inside = vSize - length(p);
    if (inside < -0.5) discard;
    bool isInHand = vHow > 2.5;
    float filled = isInHand ? vHow - 3.0 : vHow;
    vec3 ink = isInHand ? uInHand : mix(uInk, uGround, 0.5 * vFar);
    bool isInk = filled > 1.5 || (filled > 0.5 && p.x < 0.0);
    float ring = 1.0 - clamp(inside - 1.3 * uWeight + 0.5, 0.0, 1.0);
    gl_FragColor = vec4(mix(isInk ? ink : uGround, ink, ring), clamp(inside + 0.5, 0.0, 1.0));
  }`,
];

/** A drawn mark of constant size. */
export const MARK: readonly [string, string] = [
  /* glsl */ `
  #include <clipping_planes_pars_vertex>
  uniform float uSize;
  uniform float uWeight;
  uniform float uPixel;
  void main() {
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    gl_Position = projectionMatrix * (mvPosition + vec4(0.0, 0.0, 1.5 + 1.5 * uPixel, 0.0));
    gl_PointSize = uSize * uWeight;
    CLIP
  }`,
  /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform sampler2D uMap;
  void main() {
    CLIP
    vec4 t = texture2D(uMap, vec2(gl_PointCoord.x, 1.0 - gl_PointCoord.y));
    if (t.a < 0.02) discard;
    gl_FragColor = vec4(t.rgb / t.a, t.a);
  }`,
];
