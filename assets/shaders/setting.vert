layout(location = 0) in vec3 position;
layout(location = 1) in vec3 paint;         // sRGB

out vec3 colour;

void main() {
    colour = paint;
    gl_Position = matrix * vec4(position, 1.0);
}
