layout(location = 0) in vec3 position;
layout(location = 1) in vec2 offset;        // in the plane of the picture, in cubies
layout(location = 2) in vec3 paint;         // sRGB
layout(location = 3) in vec2 sheet_place;

out vec3 colour;
out vec2 at;

void main() {
    colour = paint;
    at = sheet_place;
    vec3 moved = position + screen_right.xyz * offset.x + screen_up.xyz * offset.y;
    gl_Position = matrix * vec4(moved, 1.0);
}
