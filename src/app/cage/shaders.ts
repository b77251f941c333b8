/** The picture's shading programs, vertex and fragment. CLIP and DASH stand for the pieces below. */

export const CLIP_VERTEX = "#include <clipping_planes_vertex>";
export const CLIP_FRAGMENT = "vec4 diffuseColor = vec4(1.0);\n#include <clipping_planes_fragment>";

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
  uniform float uRepeat;
  uniform float uGrain;
  uniform vec2 uOn[3];
  varying float vAlong;
  void main() {
    CLIP
    DASH
    gl_FragColor = vec4(uColour, 1.0);
  }
`;

/** A surface, a little darker where it turns away; from behind (in a section) the cut face's flat colour. */
export const FILL: readonly [string, string] = [
  /* glsl */ `
  #include <clipping_planes_pars_vertex>
  varying vec3 vNormal;
  varying vec3 vSight;
  void main() {
    vNormal = normalMatrix * normal;
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    vSight = isOrthographic ? vec3(0.0, 0.0, 1.0) : -mvPosition.xyz;
    gl_Position = projectionMatrix * mvPosition;
    CLIP
  }`,
  /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform vec3 uFace;
  uniform vec3 uEdge;
  uniform vec3 uCut;
  varying vec3 vNormal;
  varying vec3 vSight;
  void main() {
    CLIP
    vec3 n = normalize(vNormal);
    float facing = clamp(0.85 * n.z + 0.25 * n.y + 0.05 * n.x, 0.0, 1.0);
    vec3 colour = mix(uEdge, uFace, smoothstep(0.15, 0.8, facing));
    // A long thin triangle's own winding flips when its corners are rounded to pixels; the surface's direction does not.
    gl_FragColor = vec4(dot(n, normalize(vSight)) > -0.03 ? colour : uCut, 1.0);
  }`,
];

/** The far side of a body, pushed out square to the line of sight: what shows of it around the body is its outline. */
export const HULL: readonly [string, string] = [
  /* glsl */ `
  #include <clipping_planes_pars_vertex>
  attribute float along;
  uniform vec2 uViewport;
  uniform float uWeight;
  uniform float uWidth;
  varying float vAlong;
  void main() {
    vAlong = along;
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    gl_Position = projectionMatrix * mvPosition;
    vec2 away = normalize(normalMatrix * normal).xy;
    gl_Position.xy += away * uWidth * uWeight * 2.0 / uViewport * gl_Position.w;
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
  attribute float along;
  uniform vec2 uViewport;
  uniform float uWeight;
  uniform float uWidth;
  varying float vAlong;
  varying vec3 vNormal;
  void main() {
    vAlong = along;
    vNormal = normalMatrix * normal;
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    gl_Position = projectionMatrix * mvPosition;
    gl_Position.xy += vNormal.xy * uWidth * uWeight * 2.0 / uViewport * gl_Position.w;
    CLIP
  }`,
  /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform vec3 uFace;
  uniform vec3 uEdge;
  uniform vec3 uColour;
  uniform float uWeight;
  uniform float uWidth;
  uniform float uRepeat;
  uniform float uGrain;
  uniform vec2 uOn[3];
  varying float vAlong;
  varying vec3 vNormal;
  void main() {
    CLIP
    vec3 n = normalize(vNormal);
    float squared = n.z * n.z;
    float slope = fwidth(squared);
    if (squared < slope * uWidth * uWeight) {
      DASH
      gl_FragColor = vec4(uColour, 1.0);
      return;
    }
    float facing = clamp(0.85 * n.z + 0.25 * n.y + 0.05 * n.x, 0.0, 1.0);
    gl_FragColor = vec4(mix(uEdge, uFace, smoothstep(0.15, 0.8, facing)), 1.0);
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
  attribute vec2 span;
  uniform vec2 uViewport;
  uniform float uWeight;
  uniform float uWidth;
  uniform float uPixel;
  varying float vAlong;
  void main() {
    // The strip's corners in their order: left and right at its start, right and left at its end.
    int corner = gl_VertexID & 3;
    bool isFirst = corner < 2;
    float across = corner == 0 || corner == 3 ? -1.0 : 1.0;
    vec4 a = modelViewMatrix * vec4(from, 1.0);
    vec4 b = modelViewMatrix * vec4(to, 1.0);
    // A section cuts the line where it lies, not where it is lifted to.
    vec4 mvPosition = isFirst ? a : b;
    float lift = min(0.4 + 0.5 * uPixel, 2.2);
    a.z += lift;
    b.z += lift;
    float sa = span.x;
    float sb = span.y;
    if (projectionMatrix[2][3] == -1.0) {
      float near = projectionMatrix[3][2] / (projectionMatrix[2][2] - 1.0);
      if (a.z > -near && b.z < -near) {
        float t = (-near - a.z) / (b.z - a.z);
        sa = mix(sa, sb, t);
        a = mix(a, b, t);
      } else if (b.z > -near && a.z < -near) {
        float t = (-near - b.z) / (a.z - b.z);
        sb = mix(sb, sa, t);
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
    clip.xy += off * uWidth * uWeight / uViewport * clip.w;
    vAlong = isFirst ? sa : sb;
    gl_Position = clip;
    CLIP
  }`,
  STROKE_FRAGMENT,
];

/** Near its outline the square of a rounded body's facing falls evenly to 0, so its slope counts the pixels to it. */
export const GHOST: readonly [string, string] = [
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
    float pixels = squared / max(fwidth(squared), 1e-6) / uRatio;
    float line = 1.0 - smoothstep(0.8, 1.6, pixels);
    gl_FragColor = vec4(uColour, mix(0.10, 0.9, line));
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
