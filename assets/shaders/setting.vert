layout(location = 0) in vec3 position;
layout(location = 1) in vec2 offset;    // in the plane of the picture, in cubies
layout(location = 2) in vec4 paint;
layout(location = 3) in vec3 texture_place; // z: 0 plain, 1 the floor with the shadow, 2 a letter

out vec3 place;
out vec4 colour;
out vec3 at;

void main() {
    place = position;
    colour = paint;
    at = texture_place;
    vec3 moved = position + screen_right.xyz * offset.x + screen_up.xyz * offset.y;
    gl_Position = matrix * vec4(moved, 1.0);
}
