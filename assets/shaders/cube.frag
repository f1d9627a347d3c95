uniform sampler2D sheet;

in vec3 seen;
#ifdef LETTERS
in vec3 letter;
flat in vec3 ink;
#endif
out vec4 result;

void main() {
#ifdef LETTERS
    result = vec4(mix(seen, ink, texture(sheet, letter.xy).r * letter.z), 1.0);
#else
    result = vec4(seen, 1.0);
#endif
}
