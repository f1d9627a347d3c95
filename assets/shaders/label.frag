uniform sampler2D sheet;

in vec3 colour;
in vec2 at;
out vec4 result;

void main() {
    result = vec4(colour, texture(sheet, at).r);
}
