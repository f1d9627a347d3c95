// What all stage shaders share. Colours are linear light until encode(); matrices act on column vectors.
layout(std140) uniform Scene {
    mat4 matrix;            // world to clip space
    mat4 turn;              // of the turning layer
    mat4 reflections[3];
    vec4 eye;
    vec4 screen_right;
    vec4 screen_up;
    vec4 key;               // direction and strength of the lights
    vec4 fill;
    vec4 sky;
    vec4 floor_light;
    vec4 tint;              // sRGB of the mirrors' glass, and how strongly
    vec4 letter_dark;
    vec4 letter_light;
    vec4 stickers[54];      // colour; w: letter number, or -1
    vec4 bodies[27];        // colour; w: 1 when the cubie is in the turning layer
};

// sRGB from linear light (IEC 61966-2-1), so that the picture is the same on every kind of framebuffer.
vec3 encode(vec3 colour) {
    vec3 light = clamp(colour, 0.0, 1.0);
    return mix(1.055 * pow(light, vec3(1.0 / 2.4)) - 0.055, 12.92 * light, lessThan(light, vec3(0.0031308)));
}
