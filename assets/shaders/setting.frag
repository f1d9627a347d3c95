uniform sampler2D sheet;
uniform vec4 shadow;                    // half the cube's width, softness, depth, reach of the floor

in vec3 place;
in vec4 colour;
in vec3 at;
out vec4 result;

// Light kept away by a box above the floor: how far the point lies inside the box's soft outline.
float shade_of_cube(vec2 point) {
    vec2 beyond = abs(point) - shadow.x * 0.6;
    float away = length(max(beyond, 0.0)) + min(max(beyond.x, beyond.y), 0.0) - shadow.x * 0.4;
    return shadow.z * (1.0 - smoothstep(-shadow.y, shadow.y, away));
}

void main() {
    if (at.z < 0.5) {
        result = vec4(encode(colour.rgb), colour.a);
    } else if (at.z < 1.5) {
        float fade = 1.0 - smoothstep(0.35, 1.0, length(place.xz) / shadow.w);
        float dark = shade_of_cube(place.xz);
        result = vec4(encode(colour.rgb * (1.0 - dark)), max(fade, dark) * colour.a);
    } else {
        result = vec4(encode(colour.rgb), colour.a * texture(sheet, at.xy).r);
    }
}
