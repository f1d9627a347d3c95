uniform float strength;                 // below 1 for the ghost of what is covered

in vec3 world_normal;
in vec4 colour;
out vec4 result;

void main() {
    float size = dot(world_normal, world_normal);
    float lit = 1.0;
    if (size > 0.01) {
        vec3 n = world_normal * inversesqrt(size);
        lit = 0.82 + 0.12 * n.y + 0.16 * max(dot(n, key.xyz), 0.0);
    }
    vec3 shade = colour.rgb * lit;
#ifdef MIRRORED
    shade = mix(shade, tint.rgb, tint.a);
#endif
    result = vec4(encode(shade), colour.a * strength);
}
