layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;    // (0, 0, 0) where the mark shines by itself
layout(location = 2) in vec4 paint;
layout(location = 3) in float cubie;    // -1 when it stays in its place

out vec4 seen;                          // sRGB

void main() {
    bool moves = cubie > -0.5 && bodies[int(max(cubie, 0.0) + 0.5)].w > 0.5;
    vec3 place = moves ? mat3(turn) * position : position;
    vec3 n = moves ? mat3(turn) * normal : normal;
#ifdef MIRRORED
    int mirror = gl_InstanceID;
    mat4 reflection = reflections[mirror];
    place = (reflection * vec4(place, 1.0)).xyz;
    n = mat3(reflection) * n;
#endif
    float lit = dot(n, n) > 0.01 ? 0.82 + 0.12 * n.y + 0.16 * max(dot(n, key.xyz), 0.0) : 1.0;
    seen = vec4(encode(paint.rgb * lit), paint.a);
#ifdef MIRRORED
    seen.rgb = mix(seen.rgb, tint.rgb, tint.a);
#endif
    gl_Position = matrix * vec4(place, 1.0);
}
