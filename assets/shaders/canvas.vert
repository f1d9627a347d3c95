#version 330 core
// One instance is one shape; the quad's corners come from the vertex number.
layout(location = 0) in vec4 rect;    // x, y, width, height in pixels, y downwards
layout(location = 1) in vec4 fill;    // sRGB, not multiplied by alpha
layout(location = 2) in vec4 stroke;
layout(location = 3) in vec4 shape;   // radius, stroke width, kind, softness
layout(location = 4) in vec4 extra;   // glyph: place in the atlas; segment: its two ends
layout(location = 5) in vec4 clip;    // left, top, right, bottom

uniform vec2 size;                    // of the picture in pixels

out vec2 at;
flat out vec4 box;
flat out vec4 inside;
flat out vec4 edge;
flat out vec4 form;
flat out vec4 more;
flat out vec4 bounds;

void main() {
    vec2 corner = vec2(gl_VertexID & 1, gl_VertexID >> 1);
    float margin = int(shape.z) == 1 ? 0.0 : 1.0 + shape.w;
    at = rect.xy - margin + corner * (rect.zw + 2.0 * margin);
    box = rect;
    inside = fill;
    edge = stroke;
    form = shape;
    more = extra;
    bounds = clip;
    gl_Position = vec4(2.0 * at.x / size.x - 1.0, 1.0 - 2.0 * at.y / size.y, 0.0, 1.0);
}
