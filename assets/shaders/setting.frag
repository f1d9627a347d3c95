in vec3 colour;
out vec4 result;

void main() {
    // A grain of less than one step of eight bits keeps the floor's slow gradient from showing bands.
    float grain = fract(52.9829189 * fract(dot(gl_FragCoord.xy, vec2(0.06711056, 0.00583715)))) - 0.5;
    result = vec4(colour + grain / 255.0, 1.0);
}
