#version 330 core
// Shapes by signed distance, glyphs by coverage; the colour leaves multiplied by its alpha.
in vec2 at;
flat in vec4 box;
flat in vec4 inside;
flat in vec4 edge;
flat in vec4 form;
flat in vec4 more;
flat in vec4 bounds;

uniform sampler2D atlas;
uniform sampler2D pictures;

out vec4 colour;

float rounded(vec2 point, vec2 half_size, float radius) {
    vec2 q = abs(point) - half_size + radius;
    return length(max(q, 0.0)) + min(max(q.x, q.y), 0.0) - radius;
}

float segment(vec2 point, vec2 start, vec2 end) {
    vec2 along = end - start;
    float t = clamp(dot(point - start, along) / max(dot(along, along), 1e-6), 0.0, 1.0);
    return length(point - start - t * along);
}

vec4 paint(vec4 ink, float coverage) {
    return vec4(ink.rgb, 1.0) * ink.a * coverage;
}

void main() {
    if (at.x < bounds.x || at.y < bounds.y || at.x > bounds.z || at.y > bounds.w) {
        discard;
    }
    int kind = int(form.z);
    if (kind == 1) {
        vec2 texel = more.xy + floor(at - box.xy);
        colour = paint(inside, texelFetch(atlas, ivec2(texel), 0).r);
    } else if (kind == 2) {
        colour = paint(inside, clamp(form.x - segment(at, more.xy, more.zw) + 0.5, 0.0, 1.0));
    } else if (kind == 3) {
        vec2 step_in = clamp(floor(at - box.xy), vec2(0.0), box.zw - 1.0);
        vec4 seen = texelFetch(pictures, ivec2(more.x + step_in.x, more.y - 1.0 - step_in.y), 0);
        float outside = rounded(at - box.xy - 0.5 * box.zw, 0.5 * box.zw, form.x);
        colour = vec4(seen.rgb, 1.0) * clamp(0.5 - outside, 0.0, 1.0);
    } else if (form.x + form.y + form.w == 0.0) {
        vec2 far = min(abs(at - box.xy - 0.5 * box.zw) - 0.5 * box.zw, 0.5);
        colour = paint(inside, clamp(0.5 - max(far.x, far.y), 0.0, 1.0));
    } else {
        vec2 half_size = 0.5 * box.zw;
        float radius = min(form.x, min(half_size.x, half_size.y));
        float outside = rounded(at - box.xy - half_size, half_size, radius);
        float soft = max(1.0, form.w);
        float whole = clamp(0.5 - outside / soft, 0.0, 1.0);
        if (form.y > 0.0) {
            float core = clamp(0.5 - (outside + form.y) / soft, 0.0, 1.0);
            colour = paint(edge, whole - core) + paint(inside, core);
        } else {
            colour = paint(inside, whole);
        }
    }
}
